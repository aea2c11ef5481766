-- Weekly risk-set tables from the linked tables (injuries, treatments, visits; columns as in schemas/), for rows that lie in a database already.
--
-- The question: back to full climbing, counted from the injury, a return between two days on the middle one; giving up, a new rupture of the
-- same finger and death end it; groups by the first of tape, ring and surgery, at risk from its first day; within grades; by site.
-- Change the two values in "asked" and the groups at the end. Blank cells are NULL; dates are dates, or texts as 2024-03-04.
--
-- Injuries with a treatment of these without a start date are left out: whether it came first has to be settled in the data.
-- What comes out is not checked for small counts: it is a table to compute from, not one to hand on.
WITH asked AS (
  SELECT CAST('2023-07-02' AS DATE) AS closed_on, 7 AS bin_days
),
bounds AS (
  SELECT DATE '0001-01-01' AS never_before, DATE '9999-12-31' AS never_after
),
-- what the injuries say of a milestone; bounds that are inside out are not used
written AS (
  SELECT injury_id, 'full_climbing' AS milestone,
    CAST(full_climbing_date AS DATE) AS dated, full_climbing_precision AS written_precision,
    CAST(full_climbing_not_before AS DATE) AS lower_bound, CAST(full_climbing_not_after AS DATE) AS upper_bound
  FROM injuries
  UNION ALL
  SELECT injury_id, 'previous_level',
    CAST(previous_level_date AS DATE), previous_level_precision,
    CAST(previous_level_not_before AS DATE), CAST(previous_level_not_after AS DATE)
  FROM injuries
),
fields AS (
  SELECT injury_id, milestone, dated, written_precision = 'later' AS is_open,
    COALESCE(NULLIF(written_precision, 'later'), 'day') AS date_precision,
    CASE WHEN lower_bound >= upper_bound THEN NULL ELSE lower_bound END AS not_before,
    CASE WHEN lower_bound >= upper_bound THEN NULL ELSE upper_bound END AS not_after
  FROM written
),
-- what the visits say of it
said AS (
  SELECT injury_id, 'full_climbing' AS milestone, CAST(date AS DATE) AS day, full_climbing AS answer FROM visits
  UNION ALL
  SELECT injury_id, 'previous_level', CAST(date AS DATE), previous_level FROM visits
),
answers AS (
  SELECT f.injury_id, f.milestone,
    MAX(CASE WHEN s.answer = 'no' THEN s.day END) AS last_no,
    MAX(CASE WHEN s.answer IN ('no', 'yes') THEN s.day END) AS last_answer,
    COALESCE(f.not_after, MIN(CASE WHEN s.answer = 'yes' AND (f.not_before IS NULL OR s.day > f.not_before) THEN s.day END)) AS known_by
  FROM fields f LEFT JOIN said s ON s.injury_id = f.injury_id AND s.milestone = f.milestone
  GROUP BY f.injury_id, f.milestone, f.not_after, f.not_before
),
contacts AS (
  SELECT f.*, a.last_no, a.last_answer, a.known_by,
    COALESCE(f.not_before, (SELECT MAX(s.day) FROM said s
      WHERE s.injury_id = f.injury_id AND s.milestone = f.milestone AND s.answer = 'no' AND s.day < a.known_by)) AS not_by
  FROM fields f JOIN answers a ON a.injury_id = f.injury_id AND a.milestone = f.milestone
),
-- a date stands for the days that its precision leaves open
dates AS (
  SELECT c.*, CAST(i.last_contact_date AS DATE) AS last_contact,
    CASE date_precision WHEN 'week' THEN dated - 3 WHEN 'month' THEN CAST(DATE_TRUNC('month', dated) AS DATE) ELSE dated END AS first_day,
    CASE date_precision WHEN 'week' THEN dated + 3
      WHEN 'month' THEN CAST(DATE_TRUNC('month', dated) + INTERVAL 1 MONTH AS DATE) - 1 ELSE dated END AS last_day
  FROM contacts c JOIN injuries i ON i.injury_id = c.injury_id
),
narrowed AS (
  SELECT d.*, GREATEST(first_day - 1, COALESCE(not_before, never_before)) AS date_left,
    LEAST(last_day, COALESCE(not_after, never_after)) AS date_right
  FROM dates d CROSS JOIN bounds
),
dated AS (
  SELECT n.*, CASE WHEN date_left < date_right THEN date_left ELSE first_day - 1 END AS kept_left,
    CASE WHEN date_left < date_right THEN date_right ELSE last_day END AS kept_right
  FROM narrowed n
),
-- the milestone lies in (left_day, right_day]: by its date, else by contacts
known AS (
  SELECT d.injury_id, d.milestone, d.dated, d.not_before, d.not_after, d.last_no, d.last_answer, d.is_open,
    CASE WHEN d.dated IS NOT NULL THEN kept_left WHEN known_by IS NOT NULL THEN COALESCE(not_by, never_before) END AS left_day,
    CASE WHEN d.dated IS NOT NULL THEN
        CASE WHEN d.dated <= last_contact AND kept_left < last_contact THEN LEAST(kept_right, last_contact) ELSE kept_right END
      WHEN known_by IS NOT NULL THEN known_by END AS right_day
  FROM dated d CROSS JOIN bounds
),
-- else by a higher milestone, which tells an end only; else by a day before which it was not
returns AS (
  SELECT f.injury_id, f.dated, f.not_before, f.not_after, f.last_answer,
    CASE WHEN f.right_day IS NOT NULL THEN f.left_day
      WHEN p.right_day IS NOT NULL AND GREATEST(COALESCE(f.not_before, never_before), COALESCE(f.last_no, never_before)) < p.right_day
        THEN GREATEST(COALESCE(f.not_before, never_before), COALESCE(f.last_no, never_before))
      WHEN f.is_open AND f.not_before IS NOT NULL THEN GREATEST(f.not_before, COALESCE(f.last_no, never_before)) END AS left_day,
    CASE WHEN f.right_day IS NOT NULL THEN f.right_day
      WHEN p.right_day IS NOT NULL AND GREATEST(COALESCE(f.not_before, never_before), COALESCE(f.last_no, never_before)) < p.right_day
        THEN p.right_day
      WHEN f.is_open AND f.not_before IS NOT NULL THEN never_after END AS right_day
  FROM known f JOIN known p ON p.injury_id = f.injury_id AND p.milestone = 'previous_level' CROSS JOIN bounds
  WHERE f.milestone = 'full_climbing'
),
-- the last day on which the state was known
followed AS (
  SELECT i.injury_id, GREATEST(CAST(i.last_contact_date AS DATE), COALESCE(CAST(i.easy_climbing_date AS DATE), never_before),
    COALESCE(CAST(i.full_climbing_date AS DATE), never_before), COALESCE(CAST(i.previous_level_date AS DATE), never_before),
    COALESCE(r.not_before, never_before), COALESCE(r.not_after, never_before), COALESCE(r.last_answer, never_before)) AS last_known
  FROM injuries i JOIN returns r ON r.injury_id = i.injury_id CROSS JOIN bounds
),
-- of ends on one day the cause stands before its consequence
ends AS (
  SELECT i.injury_id, 'died' AS end_kind, 1 AS precedence, f.last_known AS day
  FROM injuries i JOIN followed f ON f.injury_id = i.injury_id WHERE i.end_status = 'died'
  UNION ALL
  SELECT injury_id, 'new_rupture', 2, CAST(new_rupture_date AS DATE) FROM injuries WHERE new_rupture_date IS NOT NULL
  UNION ALL
  SELECT i.injury_id, 'gave_up', 3, COALESCE(CAST(i.gave_up_date AS DATE), f.last_known)
  FROM injuries i JOIN followed f ON f.injury_id = i.injury_id WHERE i.gave_up_date IS NOT NULL OR i.end_status = 'gave_up'
),
first_ends AS (
  SELECT injury_id, end_kind, day FROM (
    SELECT e.injury_id, e.end_kind, e.day, ROW_NUMBER() OVER (PARTITION BY e.injury_id ORDER BY e.day, e.precedence) AS place
    FROM ends e CROSS JOIN asked WHERE e.day <= closed_on) ranked
  WHERE place = 1
),
-- day 0, and how far the true one may lie from it
clocks AS (
  SELECT injury_id, site_id, grade, CAST(injury_date AS DATE) AS day_zero,
    CASE injury_date_precision WHEN 'week' THEN 3
      WHEN 'month' THEN CAST(injury_date AS DATE) - CAST(DATE_TRUNC('month', CAST(injury_date AS DATE)) AS DATE) ELSE 0 END AS earlier_by,
    CASE injury_date_precision WHEN 'week' THEN 3
      WHEN 'month' THEN CAST(DATE_TRUNC('month', CAST(injury_date AS DATE)) + INTERVAL 1 MONTH AS DATE) - 1 - CAST(injury_date AS DATE)
      ELSE 0 END AS later_by
  FROM injuries
),
-- as known when the data were closed, in days from day 0
seen AS (
  SELECT c.*, r.left_day, r.right_day, e.end_kind, e.day AS end_day, f.last_known, closed_on, bin_days,
    r.right_day IS NOT NULL AND r.left_day < closed_on
      AND (r.right_day <= closed_on OR (r.dated IS NOT NULL AND r.dated <= closed_on)) AS is_seen,
    LEAST(r.right_day, closed_on) - c.day_zero AS right_after, r.left_day - c.day_zero AS left_after
  FROM clocks c
    JOIN returns r ON r.injury_id = c.injury_id
    JOIN followed f ON f.injury_id = c.injury_id
    CROSS JOIN asked CROSS JOIN bounds
    LEFT JOIN first_ends e ON e.injury_id = c.injury_id
      AND NOT (r.right_day IS NOT NULL AND r.right_day = never_after AND e.day > r.left_day)
),
placed AS (
  SELECT s.*,
    FLOOR((GREATEST(left_after - later_by, LEAST(-1, right_after + earlier_by - 1)) + 1 + right_after + earlier_by) / 2.0) AS return_day,
    FLOOR((GREATEST(left_after, LEAST(-1, right_after - 1)) + 1 + right_after) / 2.0) AS return_day_beside_ends,
    LEAST(COALESCE(left_day, last_known), closed_on) - day_zero AS last_day
  FROM seen s
  WHERE NOT (is_seen AND right_after + earlier_by < 0)
),
outcomes AS (
  SELECT injury_id, site_id, grade, day_zero, closed_on, bin_days,
    CASE WHEN is_seen AND (end_day IS NULL OR end_day - day_zero >= return_day_beside_ends) THEN 'milestone'
      WHEN end_day IS NOT NULL THEN end_kind ELSE 'censored' END AS outcome,
    CASE WHEN is_seen AND (end_day IS NULL OR end_day - day_zero >= return_day_beside_ends) THEN return_day
      WHEN end_day IS NOT NULL THEN end_day - day_zero ELSE last_day END AS day
  FROM placed
),
-- the first treatment of interest; several on that day are none
begun AS (
  SELECT t.injury_id, t.treatment, CAST(t.start_date AS DATE) AS start_day
  FROM treatments t CROSS JOIN asked
  WHERE t.treatment IN ('tape', 'ring', 'surgery', 'not_stated') AND (t.start_date IS NULL OR CAST(t.start_date AS DATE) <= closed_on)
),
first_days AS (
  SELECT injury_id, MIN(start_day) AS start_day FROM begun GROUP BY injury_id HAVING COUNT(*) = COUNT(start_day)
),
first_treatments AS (
  SELECT b.injury_id, MIN(b.treatment) AS treatment, MIN(b.start_day) AS start_day
  FROM begun b JOIN first_days f ON f.injury_id = b.injury_id AND f.start_day = b.start_day
  GROUP BY b.injury_id HAVING COUNT(DISTINCT b.treatment) = 1
),
-- at risk from the treatment on, those from day 0 on from before it
records AS (
  SELECT o.site_id, t.treatment AS treatment_group, o.grade, o.outcome, o.day, o.bin_days,
    GREATEST(-1, t.start_day - o.day_zero) AS entry_day
  FROM outcomes o JOIN first_treatments t ON t.injury_id = o.injury_id
  WHERE t.treatment IN ('ring', 'tape') AND o.grade <> 'unknown' AND o.day >= 0 AND o.day > GREATEST(-1, t.start_day - o.day_zero)
),
-- whoever leaves counts to the end of the bin, whoever comes late from its beginning
lines AS (
  SELECT site_id, treatment_group, grade, GREATEST(1, CEIL(day / CAST(bin_days AS DOUBLE PRECISION))) * bin_days AS bin_end, 0 AS entered, outcome
  FROM records
  UNION ALL
  SELECT site_id, treatment_group, grade,
    CASE WHEN entry_day < bin_days THEN -1 ELSE FLOOR(entry_day / CAST(bin_days AS DOUBLE PRECISION)) * bin_days END, 1, 'entered'
  FROM records
)
SELECT site_id, treatment_group, grade, CAST(bin_end AS INTEGER) AS bin_end, SUM(entered) AS entered,
  SUM(CASE WHEN outcome = 'censored' THEN 1 ELSE 0 END) AS censored,
  SUM(CASE WHEN outcome = 'milestone' THEN 1 ELSE 0 END) AS milestone,
  SUM(CASE WHEN outcome = 'gave_up' THEN 1 ELSE 0 END) AS gave_up,
  SUM(CASE WHEN outcome = 'new_rupture' THEN 1 ELSE 0 END) AS new_rupture,
  SUM(CASE WHEN outcome = 'died' THEN 1 ELSE 0 END) AS died
FROM lines
GROUP BY site_id, treatment_group, grade, bin_end
ORDER BY site_id, treatment_group, grade, bin_end

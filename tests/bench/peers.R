# The peers of the benchmark cases, on the same rows: Rscript peers.R CASE SIZE SECONDS. Prints one line of JSON, or nothing where the
# package of the case is not installed. Fitters get prepared arrays and sort inside; packages called as documented get a data frame.
suppressPackageStartupMessages(library(survival))
args <- commandArgs(TRUE)
case <- args[1]; n <- as.numeric(args[2]); budget <- as.numeric(args[3])

M <- 2147483647; A <- 48271
mulmod <- function(a, x) ((((a %/% 32768) * x) %% M) * 32768 + (a %% 32768) * x) %% M # exact for a, x below 2^31
draws <- function(k, seed) {
  s <- seed
  for (i in 1:11) s <- (A * s) %% M
  v <- s; jump <- A
  while (length(v) < k) { v <- c(v, mulmod(jump, v)); jump <- mulmod(jump, jump) } # doubles the block by jumping ahead
  v[seq_len(k)] / M
}
to_three <- function(v) floor(v * 1000 + 0.5) / 1000
cohort <- function(n, seed = 7) {
  u <- matrix(draws(27 * n, seed), nrow = 27)
  x <- matrix(0, n, 10, dimnames = list(NULL, paste0("x", 1:10)))
  for (k in 1:5) x[, k] <- to_three(2 * (u[3 * k - 1, ] + u[3 * k, ] + u[3 * k + 1, ] - 1.5))
  for (k in 6:10) x[, k] <- u[11 + k, ] < 0.3
  group <- as.integer(u[1, ] < 0.5)
  ev <- -log(u[24, ]) * 400 / exp(0.4 * group + 0.3 * x[, 1] - 0.2 * x[, 2] + 0.25 * x[, 6])
  ce <- u[25, ] * 1500
  time <- floor(pmin(ev, ce) * 1e4 + 0.5) / 1e4
  day <- pmax(1L, as.integer(ceiling(time))); status <- as.integer(ev <= ce)
  list(x = x, group = group, stratum = floor(u[22, ] * 20) + 1, cluster = floor(u[23, ] * ceiling(n / 5)) + 1, day = day, time = time,
       status = status, cause = status * ifelse(u[26, ] < 0.6, 1L, 2L), entry = floor(u[27, ] * day))
}
start_stop <- function(d) {
  cuts <- c(0, 90, 180, 365, Inf)
  pieces <- lapply(1:4, function(j) {
    k <- which(d$day > cuts[j]); x <- d$x[k, 1:5]; x[, 1] <- x[, 1] + 0.1 * (j - 1) * x[, 2]
    list(y = cbind(cuts[j], pmin(d$day[k], cuts[j + 1]), d$status[k] == 1 & d$day[k] <= cuts[j + 1]), x = x, id = k)
  })
  o <- order(unlist(lapply(pieces, `[[`, "id")))
  y <- do.call(rbind, lapply(pieces, `[[`, "y"))[o, ]
  list(y = Surv(y[, 1], y[, 2], y[, 3]), x = do.call(rbind, lapply(pieces, `[[`, "x"))[o, ])
}
intervals <- function(n, seed = 11) {
  u <- matrix(draws(3 * n, seed), nrow = 3)
  first <- floor(u[2, ] * 60) + 1; gap <- floor(u[3, ] * 60) + 30
  visit <- pmax(0, ceiling((-log(u[1, ]) * 400 - first) / gap)); seen <- first + visit * gap; late <- seen > 1095
  data.frame(left = ifelse(late, first + floor((1095 - first) / gap) * gap, ifelse(visit > 0, seen - gap, 0)),
             right = ifelse(late, Inf, seen))
}
write_csv <- function(n, path, seed = 17) {
  u <- matrix(draws(20 * n, seed), nrow = 20); d0 <- as.Date("2015-01-01") + floor(u[1, ] * 3000)
  blank <- function(v, p) ifelse(p < 0.08, "", v); code <- function(words, p) words[floor(p * length(words)) + 1]
  d <- data.frame(id = sprintf("P%07d", seq_len(n)), site = code(c("north", "south", "east", "west"), u[3, ]), injured_on = format(d0),
    returned_on = blank(format(d0 + floor(u[2, ] * 900) + 1), u[4, ]), grade = code(c("I", "II", "III", "IV"), u[5, ]),
    treatment = code(c("tape", "ring", "surgery"), u[6, ]), pulley = code(c("A2", "A3", "A4"), u[7, ]), age = floor(u[8, ] * 45) + 16,
    sex = code(c("f", "m"), u[9, ]), note = ifelse(u[10, ] < 0.05, "\"seen, twice\"", "ok"))
  for (k in 1:8) d[[paste0("mm", k)]] <- blank(sprintf("%.1f", u[10 + k, ] * 9), u[(10 + k) %% 20 + 1, ])
  d$score <- floor(u[19, ] * 101); d$event <- as.integer(u[20, ] < 0.7)
  write.table(d, path, sep = ",", quote = FALSE, row.names = FALSE)
}

# Median of warm runs, the first run, and the most memory that the runs needed beyond the data.
emit <- function(run) {
  now <- function() as.numeric(Sys.time())
  held <- sum(gc(reset = TRUE)[, 2])
  t0 <- now(); run(); first <- now() - t0
  peak <- sum(gc()[, 6]) - held
  inner <- max(1, ceiling(0.005 / max(first, 1e-6)))
  reps <- max(5, min(200, ceiling(budget / (first * inner))))
  if (first > 20) reps <- 1
  w <- vapply(seq_len(reps), function(r) { t0 <- now(); for (i in seq_len(inner)) run(); (now() - t0) / inner }, 0)
  cat(sprintf('{"seconds":%.6g,"first":%.6g,"runs":%d,"megabytes":%.0f,"megabytesOfData":null,"difference":null}\n',
              median(w), first, reps, peak))
}
control <- coxph.control()
fit_right <- function(x, y, strata = NULL)
  survival:::coxph.fit(x, y, strata, NULL, NULL, control, NULL, "efron", NULL, resid = FALSE)
fit_counting <- function(x, y)
  survival:::agreg.fit(x, y, NULL, NULL, NULL, control, NULL, "efron", NULL, resid = FALSE)
have <- function(package) requireNamespace(package, quietly = TRUE)

d <- if (case %in% c("csv20", "turnbull")) NULL else cohort(if (case == "boot500") 500 else n)
y <- if (is.null(d)) NULL else Surv(d$day, d$status)
yc <- if (is.null(d)) NULL else Surv(d$time, d$status)
g <- if (is.null(d)) NULL else factor(d$group)
x <- function(p) d$x[, seq_len(p), drop = FALSE]
switch(case,
  km2 = emit(function() survival:::survfitKM(g, y)),
  km2cont = emit(function() survival:::survfitKM(g, yc)),
  logrank2 = emit(function() survival:::survdiff.fit(y, d$group)),
  logrank2cont = emit(function() survival:::survdiff.fit(yc, d$group)),
  cox1 = { x1 <- x(1); emit(function() fit_right(x1, y)) },
  cox5 = { x5 <- x(5); emit(function() fit_right(x5, y)) },
  cox10 = { x10 <- x(10); emit(function() fit_right(x10, y)) },
  cox10cont = { x10 <- x(10); emit(function() fit_right(x10, yc)) },
  coxstrata = { x5 <- x(5); emit(function() fit_right(x5, y, d$stratum)) },
  coxcluster = { x5 <- x(5); emit(function() {
    f <- fit_right(x5, y); o <- order(d$day, -d$status)
    r <- .Call(survival:::Ccoxscore2, y[o, ], x5[o, ], integer(n), exp(f$linear.predictors[o]), rep(1, n), 1L)
    crossprod(rowsum(r %*% f$var, d$cluster[o], reorder = FALSE)) }) },
  coxentry = { x5 <- x(5); ye <- Surv(d$entry, d$day, d$status); emit(function() fit_counting(x5, ye)) },
  coxss5 = { cut <- start_stop(d); emit(function() fit_counting(cut$x, cut$y)) },
  boot500 = { x1 <- x(1); emit(function() for (b in seq_len(n)) {
    i <- sample.int(500, replace = TRUE); fit_right(x1[i, , drop = FALSE], y[i]) }) },
  aj = if (have("cmprsk")) emit(function() cmprsk::cuminc(d$day, d$cause, d$group)),
  finegray = if (have("cmprsk")) { x5 <- x(5); emit(function() cmprsk::crr(d$day, d$cause, x5)) },
  turnbull = { z <- intervals(n); z_survival <- transform(z, right = ifelse(is.finite(right), right, NA))
    if (have("npsurv")) emit(function() npsurv::npsurv(as.matrix(z)))
    else if (n <= 2000) emit(function() survfit(Surv(left, right, type = "interval2") ~ 1, data = z_survival)) },
  csv20 = if (have("data.table")) {
    data.table::setDTthreads(1); path <- tempfile(fileext = ".csv"); write_csv(n, path)
    emit(function() data.table::fread(path)); unlink(path) })

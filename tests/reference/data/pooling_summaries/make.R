source("../../r/records.R"); source("../../r/pooling.R"); source("../../r/counts.R"); d <- read.csv("sites.csv", stringsAsFactors = FALSE)
# every figure that two sites or more tell of; pool_block compares each of its formulas with metafor and stops where they differ
ids <- Filter(function(id) sum(d$id == id) > 1, unique(d$id))
one <- function(id) { s <- d[d$id == id, ]; s <- s[order(s$site), ]; b <- pool_block(s$estimate, s$variance, loo = nrow(s) > 2)
  take <- function(m) { r <- b$random[[m]]; list(tau2 = r$tau2, estimate = r$estimate, se = r$hartung_knapp$se_never_below_plain, ci95 = arr(r$hartung_knapp$ci95_never_narrower)) }
  # shares: effective counts from share and error, and at the edge from the logit with half an injury added; each site's likelihood
  counts <- function(d) { size <- d$value*(1 - d$value)/d$standard_error^2; half <- abs(log((d$value*size + .5)/((1 - d$value)*size + .5)) - d$estimate) < 1e-7; plain <- abs(qlogis(d$value) - d$estimate) < 1e-7; ok <- is.finite(size) & (half | plain) & d$value > 0 & d$value < 1
    x <- ifelse(ok, d$value*size, (1 + exp(d$estimate))/d$variance - .5); list(x = x, m = ifelse(ok, size, x + (1 + exp(-d$estimate))/d$variance - .5)) }
  by_counts <- function(d) { k <- counts(d); f <- fit(k, restricted); g <- glm(cbind(k$x, k$m - k$x) ~ 1, family = quasibinomial()); se <- 1/sqrt(sum(k$m)*plogis(coef(g))*(1 - plogis(coef(g)))); list(tau = f$tau, log_odds = f$log_odds, se = f$se, ci95 = arr(f$ci95), common = list(estimate = unname(coef(g)), se = unname(se)), without = if (nrow(d) > 2 && d$id[1] == "all:all injuries:share_back:13") arr(sapply(seq_len(nrow(d)), function(i) fit(lapply(k, function(z) z[-i]), restricted)$share)) else NULL) }
  out <- list(id = id, sites = arr(s$site), common = list(estimate = b$fixed$estimate, se = b$fixed$se, ci95 = arr(b$fixed$ci95)), REML = take("REML"), PM = take("PM"), q = b$heterogeneity$q, q_p = b$heterogeneity$p, i2 = b$heterogeneity$i2_from_q, tau2_limits = arr(b$heterogeneity$tau2_ci95_q_profile))
  if (grepl("^(all|compared):.*share_back:(8|13)$", id)) out$counts <- by_counts(s)
  if (nrow(s) > 2) out$without <- arr(b$leave_one_out$REML$estimate); out }
write_expected(list(topic = "Summaries of three sites pooled in two stages", software = software("metafor"),
  conventions = list(estimates = "as the summaries of the SYNTHETIC cohort synthetic-data/three-sites hold them, on the scale of pooling", interval = "Hartung-Knapp, never narrower than the normal one", counts = "shares: the restricted likelihood of effective counts, t with k - 1 degrees of freedom; common: the logit of all counts together"),
  cases = list(case("three_sites", "sites.csv", "random effects by REML and Paule-Mandel", NULL, list(answers = unname(lapply(ids, one))), rel = 1e-7))))

source("../../r/records.R"); source("../../r/hazards.R"); d <- read.csv("group_without_events.csv")
# A group without events: its coefficient runs to minus infinity, and the likelihood to that of the other group alone.
limit <- function(others) {
  a <- d[d$group == 0, ]; at_null <- cox_ll(rep(0, 1 + length(others)), d[c("group", others)], d$time, d$status)
  g <- if (length(others)) { f <- coxph(as.formula(paste("Surv(time, status) ~", paste(others, collapse = "+"))), a, control = CTL); list(ll = f$loglik[2], coef = as.list(coef(f))) }
    else list(ll = cox_ll(0, matrix(0, nrow(a), 1), a$time, a$status)$ll)
  list(log_likelihood_null = at_null$ll, log_likelihood_limit = g$ll, lr_chisq_limit = 2*(g$ll - at_null$ll), score_chisq = as.numeric(t(at_null$U) %*% solve(at_null$I, at_null$U)),
    other_coef_limit = g$coef, coef_group = -Inf, hazard_ratio_group = 0)
}
# the ordinary fit comes near the limit before it gives up
near(limit(character(0))$lr_chisq_limit, 2*diff(suppressWarnings(coxph(Surv(time, status) ~ group, d))$loglik), 1e-4)
write_expected(list(topic = "Ordinary proportional-hazards fit with an infinite ratio", software = software("survival"),
  conventions = list(limits = "log-likelihood and other coefficients in the limit where the infinite coefficient is fixed at minus infinity"),
  cases = list(
    case("group_without_events_ordinary_one_covariate", "group_without_events.csv", "what the ordinary fit must report: infinite estimate, finite likelihood-ratio and score statistics", list(covariates = "group", ties = "efron"), limit(character(0)), rel = 1e-7),
    case("group_without_events_ordinary_two_covariates", "group_without_events.csv", "same with age", list(covariates = c("group", "age"), ties = "efron"), limit("age"), rel = 1e-6))))

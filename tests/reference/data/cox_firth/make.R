source("../../r/records.R"); source("../../r/hazards.R"); source("../../r/penalised.R"); rd <- function(f) read.csv(f, check.names = FALSE)
br <- rd("breast_heinze2001.csv"); t3 <- rd("three_subjects.csv"); ne <- rd("group_without_events.csv")
B <- firth_cox(br[, c("T","N","G","CD")], br$TIME, br$CENS); T3 <- firth_cox(t3["x"], t3$time, t3$status)
N1 <- lapply(c(breslow = "breslow", efron = "efron"), function(t) firth_cox(ne[c("group", "age")], ne$time, ne$status, ties = t))
# ordinary likelihood when a group has no events: coefficient runs to -infinity; the
# limit of the log-likelihood is that of the other group alone (its risk sets only)
lim <- function(cov) { a <- ne[ne$group == 0, ]; l0 <- cox_ll(rep(0, 1 + length(cov)), ne[c("group", cov)], ne$time, ne$status)
  g <- if (length(cov)) { f <- coxph(as.formula(paste("Surv(time, status) ~", paste(cov, collapse = "+"))), a, control = CTL); list(ll = f$loglik[2], coef = as.list(coef(f))) } else list(ll = cox_ll(0, matrix(0, nrow(a), 1), a$time, a$status)$ll)
  list(log_likelihood_null = l0$ll, log_likelihood_limit = g$ll, lr_chisq_limit = 2*(g$ll - l0$ll), score_chisq = as.numeric(t(l0$U) %*% solve(l0$I, l0$U)), other_coef_limit = g$coef, coef_group = -Inf, hazard_ratio_group = 0) }
near(lim(character(0))$lr_chisq_limit, 2*diff(suppressWarnings(coxph(Surv(time, status) ~ group, ne))$loglik), 1e-4)
cp <- function(q, s, v) pub("R package coxphf 1.13.1 run on the same data", q, s, v, "computed once with that package")
near(unlist(B$coef), c(1.2244388, 0.9188882, 2.4244142, 0.3971181), 1e-6); near(unlist(B$ci95_profile), c(0.3095019, 2.2483595, 0.1137351, 1.7635078, 0.3823108, 7.2806600, -0.4670204, 1.2561241), 2e-6)
write_expected(list(topic = "Firth-penalised proportional-hazards regression", software = software("survival"),
  conventions = list(penalty = "l(b) + 0.5 log det I(b); I and l with Breslow ties unless named efron (a variant no common package offers)", limits = "profile penalised likelihood: all other coefficients re-maximised, cut at 3.841/2 below the maximum",
    null = "all coefficients 0, penalty from the full information at 0", wald = "from I^-1 at the penalised estimate, unpenalised information"),
  cases = list(
  case("breast_monotone_G", "breast_heinze2001.csv", "Breslow ties", list(time = "TIME", event = "CENS", covariates = c("T","N","G","CD")), B, list(cp("coef G", "2.4244141", B$coef$G), cp("profile lower G", "0.3823108", B$ci95_profile$G[1]), cp("profile upper G", "7.280660", B$ci95_profile$G[2]), cp("LR chi-square", "35.95142", B$lr_chisq)), rel = 1e-6, note = "no deaths with G = 0: the ordinary estimate of G is infinite"),
  case("three_subjects", "three_subjects.csv", "Breslow ties", NULL, T3, list(cp("coef", "1.3291039", T3$coef$x), cp("profile lower, as hazard ratio", "0.2914006", exp(T3$ci95_profile$x[1])), cp("profile upper, as hazard ratio", "528.73", exp(T3$ci95_profile$x[2]))), rel = 1e-6),
  case("group_without_events", "group_without_events.csv", "penalised fit", list(covariates = c("group", "age")), N1, rel = 1e-6),
  case("group_without_events_ordinary_one_covariate", "group_without_events.csv", "what the ordinary fit must report: infinite estimate, finite likelihood-ratio and score statistics", list(covariates = "group", ties = "efron"), lim(character(0)), rel = 1e-7),
  case("group_without_events_ordinary_two_covariates", "group_without_events.csv", "same with age", list(covariates = c("group", "age"), ties = "efron"), lim("age"), rel = 1e-6))))

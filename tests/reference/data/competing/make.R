source("../../r/records.R"); source("../../r/competing.R")
b <- read.csv("bmt.csv"); m <- read.csv("melanoma.csv"); at <- c(50, 100, 365, 730, 1500)
b$group <- factor(b$group, c("ALL", "AML-low", "AML-high"))
X <- cbind(aml_low = +(b$group == "AML-low"), aml_high = +(b$group == "AML-high"), age = b$age)
cs <- function(d, k, f) { z <- coxph(f, d, ties = "efron", control = coxph.control(eps = 1e-12, toler.chol = 1e-13)); list(coef = as.list(coef(z)), se = named(sqrt(diag(vcov(z))), names(coef(z))), log_partial_likelihood = z$loglik[2]) }
d <- data.frame(b, X[, 1:2]); S <- function(k) cs(d, k, as.formula(sprintf("Surv(t_dfs, cause == %d) ~ aml_low + aml_high + age", k)))
mx <- cbind(male = m$sex, log_thickness = log(m$thickness), ulcer = m$ulcer, age = m$age)
naive <- { i <- findInterval(at, (r <- survfit(Surv(t_dfs, cause == 1) ~ 1, b))$time); 1 - c(1, r$surv)[i + 1] }
write_expected(list(topic = "Competing risks", software = software("survival", "cmprsk", "KMsurv", "MASS"),
  conventions = list(curve = "Aalen-Johansen: sum of S(t-) d_k/n, S = event-free of any cause; rows only at event times",
    se_delta = "Greenwood-type (delta method); equals the multi-state Greenwood SE (checked once against R package etm)", se_aalen = "slightly larger variant used with Gray's test (cmprsk)", se_jackknife = "infinitesimal jackknife (survival)",
    null = "cmprsk gives no value after the last time of a group", gray = "Gray 1988 K-sample test, rho = 0",
    regression = "Fine & Gray 1999, weights from the product-limit curve of censoring G(t-), tied events handled like Breslow; sandwich variance that includes the estimated G. weighted_rows_*: same model by weighted start-stop rows with a plain clustered sandwich: slightly different SE, and equal coefficients unless censorings and events share a time (cmprsk counts the events at t as at risk of being censored at t, survival removes them first)"),
  cases = list(
  case("bmt_overall", "bmt.csv", "cumulative incidence of relapse (1) and death in remission (2)", list(time = "t_dfs", cause = "cause"), cif_block(b$t_dfs, b$cause, at)),
  case("bmt_by_group", "bmt.csv", "cumulative incidence by group and Gray's test", list(group = "group"), cif_block(b$t_dfs, b$cause, at, b$group)),
  case("bmt_one_minus_km", "bmt.csv", "WRONG way for contrast: 1 minus product-limit treating deaths as censored", NULL, list(time = at, one_minus_km = naive), note = "must exceed the cumulative incidence"),
  case("bmt_subdistribution_relapse", "bmt.csv", "subdistribution hazards regression, event 1", list(covariates = c("aml_low", "aml_high", "age")), crr_block(b$t_dfs, b$cause, X, 1), rel = 1e-6),
  case("bmt_subdistribution_death", "bmt.csv", "subdistribution hazards regression, event 2", NULL, crr_block(b$t_dfs, b$cause, X, 2), rel = 1e-6),
  case("bmt_cause_specific", "bmt.csv", "cause-specific proportional hazards, Efron ties", NULL, list(cause_1 = S(1), cause_2 = S(2)), rel = 1e-7),
  case("melanoma_overall", "melanoma.csv", "cumulative incidence of melanoma death (1) and other death (2)", list(time = "time", cause = "cause"), cif_block(m$time, m$cause, c(365, 1000, 2000, 4000))),
  case("melanoma_by_ulcer", "melanoma.csv", "by ulceration and Gray's test", list(group = "ulcer"), cif_block(m$time, m$cause, c(365, 1000, 2000, 4000), m$ulcer)),
  case("melanoma_subdistribution", "melanoma.csv", "subdistribution hazards regression, event 1", list(covariates = colnames(mx)), crr_block(m$time, m$cause, mx, 1), rel = 1e-6))))

source("../../r/records.R"); source("../../r/hazards.R"); rd <- function(f) read.csv(f, check.names = FALSE)
PH <- "Proportional-hazards regression"; mem <- "from memory"; look <- "looked up: R package survival, its stored test output"
hw <- rd("hand_worked_1.csv"); fr <- rd("freireich.csv"); ov <- rd("ovarian.csv"); lu <- rd("lung.csv"); la <- rd("larynx.csv"); ve <- rd("veteran.csv")
ht <- rd("heart_transplant.csv"); bl <- rd("bladder_recurrences.csv"); ki <- rd("kidney_catheter.csv"); am <- rd("aml_weights.csv")
pv <- function(src, what, s, v, how = mem) Map(function(w, a, b) pub(src, w, a, b, how), what, s, unlist(v))
cases <- list(); add <- function(...) cases[[length(cases) + 1]] <<- case(...)
## 1. six subjects worked by hand (closed forms)
h <- lapply(c(breslow = "breslow", efron = "efron"), function(t) { f <- fit(Surv(time, status) ~ x, hw, t); z <- sapply(c("identity", "log"), function(g) cox.zph(f, g, global = FALSE)$table[1, 1])
  c(cox_out(f, conc = FALSE), list(baseline = base_out(f), residuals = res_out(f), proportionality_chisq = as.list(z))) })
r1 <- (3 + sqrt(33))/2; r2 <- 2*sqrt(23/3)*cos(acos((45/23)*sqrt(3/23))/3); near(h$breslow$coef, log(r1), 1e-10); near(h$efron$coef, log(r2), 1e-10)
near(h$breslow$log_likelihood, 2*log(r1) - log(3*r1 + 3) - 2*log(r1 + 3), 1e-12); near(h$efron$log_likelihood, 2*log(r2) - log(3*r2 + 3) - log(r2 + 3) - log((r2 + 5)/2), 1e-10)
add("hand_worked_1", "hand_worked_1.csv", PH, list(ties = "each in turn"), h, list(pub("Therneau & Grambsch 2000, Modeling Survival Data, Appendix E", "Breslow coefficient log((3+sqrt 33)/2)", "1.475285", h$breslow$coef[[1]], "looked up: R package survival, vignette on validation")), note = "closed forms: Breslow exp(b) = (3+sqrt 33)/2; Efron exp(b) = 2 sqrt(23/3) cos(acos(45/23 sqrt(3/23))/3)")
## 2. 6-MP: three tie methods
fr$mp <- +(fr$group == "6-MP"); F <- lapply(c(breslow = "breslow", efron = "efron", exact = "exact"), function(t) cox_out(fit(Surv(weeks, relapse) ~ mp, fr, t), conc = t == "efron"))
b <- F$exact$coef[[1]]; near(exact_ll(b, fr$mp, fr$weeks, fr$relapse), F$exact$log_likelihood, 1e-10); stopifnot(abs(exact_ll(b + 1e-4, fr$mp, fr$weeks, fr$relapse) - exact_ll(b - 1e-4, fr$mp, fr$weeks, fr$relapse)) < 1e-9)
F$efron$baseline <- base_out(fit(Surv(weeks, relapse) ~ mp, fr), data.frame(mp = 0:1), c(1, 5, 10, 20, 23, 30)); F$breslow$baseline <- base_out(fit(Surv(weeks, relapse) ~ mp, fr, "breslow"))
add("freireich_ties", "freireich.csv", PH, list(time = "weeks", event = "relapse", covariate = "mp = 1 for 6-MP, 0 for placebo", ties = "breslow, efron, exact (discrete: conditional logistic within each tied time)"), F,
  c(pv("textbook reanalyses of Freireich et al. 1963", c("Breslow coef", "Breslow SE", "Efron coef", "Efron SE", "exact discrete coef", "exact discrete SE"), c("-1.5092", "0.4096", "-1.5721", "0.4124", "-1.6282", "0.4331"),
     list(F$breslow$coef, F$breslow$se, F$efron$coef, F$efron$se, F$exact$coef, F$exact$se))))
## 3. ovarian
o1 <- fit(Surv(time, status) ~ age + ecog_ps, ov); o2 <- fit(Surv(time, status) ~ age + resid_ds + rx + ecog_ps, ov); o3 <- fit(Surv(time, status) ~ age + ecog_ps + strata(rx), ov); o4 <- fit(Surv(time, status) ~ age, ov)
O3 <- c(cox_out(o3), list(baseline = base_out(o3), predicted_by_stratum = { s <- summary(survfit(o3, data.frame(age = c(30, 70), ecog_ps = c(2, 3)))); list(stratum = as.character(s$strata), time = s$time, survival_age30_ecog2 = s$surv[, 1], survival_age70_ecog3 = s$surv[, 2]) }))
O1 <- c(cox_out(o1), list(proportionality = zph_out(o1), residuals = res_out(o1), baseline = base_out(o1, data.frame(age = c(50, 65), ecog_ps = c(1, 2)), c(100, 365, 500, 800))))
O2 <- c(cox_out(o2), list(residuals = res_out(o2)))
zz <- O1$proportionality$km
add("ovarian_age_ecog", "ovarian.csv", PH, list(covariates = c("age", "ecog_ps"), ties = "efron"), O1, c(
  pv("documentation example of R package survival (current)", c("PH test age", "PH test ecog", "PH test global"), c("0.698", "2.371", "3.633"), zz$chisq),
  pv("documentation example of R package survival (before version 3), Grambsch & Therneau 1994 approximation", c("PH test age", "PH test ecog", "PH test global"), c("0.856", "2.545", "3.195"), zz$approx1994_chisq)))
add("ovarian_four_covariates", "ovarian.csv", PH, list(covariates = c("age", "resid_ds", "rx", "ecog_ps"), ties = "efron"), O2, c(
  Map(function(i, s) pub("R package survival, stored test output", paste("martingale residual, subject", i), s, O2$residuals$martingale[[1]][[i]], look), c(1, 9, 26), c("0.84103277", "-2.15325805", "-0.09154014")),
  Map(function(i, s) pub("R package survival, stored test output", paste("deviance residual, subject", i), s, O2$residuals$deviance[[1]][[i]], look), c(1, 9, 26), c("1.41281595", "-2.07521471", "-0.42787881"))))
add("ovarian_stratified_rx", "ovarian.csv", PH, list(covariates = c("age", "ecog_ps"), strata = "rx", ties = "efron"), O3, pv("R package survival, stored test output", c("coef age", "se age", "coef ecog", "se ecog", "LR", "Wald", "score", "concordance", "concordance SE"),
  c("0.13853", "0.04801", "-0.09670", "0.62994", "12.71", "8.43", "12.24", "0.819", "0.058"), c(O3$coef[1], O3$se[1], O3$coef[2], O3$se[2], O3$lr_chisq, O3$wald_chisq, O3$score_chisq, O3$concordance$c, O3$concordance$se), look))
O4 <- cox_out(o4); add("ovarian_age", "ovarian.csv", PH, list(covariates = "age", ties = "efron"), O4, pv("R package survival, stored test output", c("coef", "se", "LR"), c("0.16162", "0.04974", "14.29"), c(O4$coef, O4$se, O4$lr_chisq), look))
## 4. lung
l1 <- fit(Surv(time, status) ~ age + sex + ecog, lu); l2 <- fit(Surv(time, status) ~ age + sex + strata(inst), lu)
L1 <- c(cox_out(l1), list(proportionality = zph_out(l1), residuals = res_out(l1, c("martingale", "deviance"))))
add("lung_age_sex_ecog", "lung.csv", PH, list(covariates = c("age", "sex", "ecog"), rows = "complete cases (one row dropped)", ties = "efron"), L1,
  pv("documentation output of R package survival", c("coef age", "coef sex", "coef ecog", "se age", "se sex", "se ecog"), c("0.011067", "-0.552612", "0.463728", "0.009267", "0.167739", "0.113577"), c(L1$coef, L1$se)))
add("lung_strata_inst", "lung.csv", PH, list(covariates = c("age", "sex"), strata = "inst", ties = "efron"), cox_out(l2))
## 5. larynx
la$s2 <- +(la$stage == 2); la$s3 <- +(la$stage == 3); la$s4 <- +(la$stage == 4)
La <- lapply(c(breslow = "breslow", efron = "efron"), function(t) { f <- fit(Surv(time, death) ~ s2 + s3 + s4 + age, la, t); C <- rbind(c(1,0,0,0), c(0,1,0,0), c(0,0,1,0)); b <- C %*% coef(f)
  c(cox_out(f), list(joint_wald_stage = list(chisq = as.numeric(t(b) %*% solve(C %*% vcov(f) %*% t(C), b)), df = 3), joint_lr_stage = list(chisq = 2*(f$loglik[2] - fit(Surv(time, death) ~ age, la, t)$loglik[2]), df = 3), proportionality = zph_out(f, c("km", "identity")))) })
kb <- "Klein & Moeschberger 2003, Section 8 (larynx cancer), Breslow ties"
add("larynx_stage_age", "larynx.csv", PH, list(covariates = "s2, s3, s4 (0/1 for stage) and age", ties = "each in turn"), La, c(
  pv(kb, c("coef II", "coef III", "coef IV", "coef age"), c("0.1386", "0.6383", "1.6931", "0.0189"), La$breslow$coef), pv(kb, c("se II", "se III", "se IV", "se age"), c("0.4623", "0.3561", "0.4222", "0.0143"), La$breslow$se),
  pv(kb, c("LR", "Wald", "score"), c("18.07", "20.82", "24.33"), c(La$breslow$lr_chisq, La$breslow$wald_chisq, La$breslow$score_chisq))))
## 6. veteran
ve$small <- +(ve$celltype == "smallcell"); ve$adeno <- +(ve$celltype == "adeno"); ve$large <- +(ve$celltype == "large")
v1 <- fit(Surv(time, status) ~ trt + small + adeno + large + karno + diagtime + age + prior, ve); v2 <- fit(Surv(time, status) ~ trt + karno + age + strata(celltype), ve, "breslow")
V1 <- c(cox_out(v1), list(proportionality = zph_out(v1, c("km", "rank"))))
add("veteran_full", "veteran.csv", PH, list(covariates = "trt, small, adeno, large (0/1), karno, diagtime, age, prior (0/10 as stored)", ties = "efron"), V1,
  pv("documentation output of R package survival (veteran lung cancer; Kalbfleisch & Prentice data)", c("trt", "small", "adeno", "large", "karno", "age"), c("0.2946", "0.8616", "1.196", "0.4013", "-0.03282", "-0.008706"), V1$coef[c(1:5, 7)]))
add("veteran_stratified", "veteran.csv", PH, list(covariates = c("trt", "karno", "age"), strata = "celltype", ties = "breslow"), cox_out(v2))
## 7. heart transplant: start-stop rows
ht$age_tx <- ht$age*ht$transplant; ht$surg_tx <- ht$surgery*ht$transplant; ht$year_tx <- ht$year*ht$transplant; Y <- "Surv(start, stop, event) ~ "
M <- lapply(c(m1 = "age + surgery + transplant + age_tx + surg_tx", m2 = "year + transplant + year_tx", m6 = "age + transplant + surgery + year + age_tx"), function(r) cox_out(fit(as.formula(paste(Y, r)), ht, "breslow")))
M$m1_proportionality <- zph_out(fit(as.formula(paste(Y, "age + surgery + transplant + age_tx + surg_tx")), ht, "breslow"), c("km", "rank", "identity"))
M$m1_efron_robust <- cox_out(fit(Surv(start, stop, event) ~ age + surgery + transplant, ht, "efron", cluster = id))
add("heart_transplant", "heart_transplant.csv", paste(PH, "; start-stop rows (at risk: start < t <= stop), covariates change over time"), list(ties = "breslow", note = "m1_efron_robust: Efron ties, sandwich by id"), M,
  pv("Kalbfleisch & Prentice 1980, p. 139, model 1 (via R package survival)", c("age", "surgery", "transplant", "age x transplant"), c("0.01386", "-0.54652", "0.11572", "0.03473"), M$m1$coef[1:4], look))
## 8. recurrent events with clusters; paired kidneys
B1 <- cox_out(fit(Surv(start, stop, event) ~ rx + number + size, bl, cluster = id)); B2 <- cox_out(fit(Surv(start, stop, event) ~ rx + number + size + strata(enum), bl, cluster = id))
add("bladder_counting_process", "bladder_recurrences.csv", paste(PH, "; recurrent events, robust SE by id"), list(ties = "efron"), B1); add("bladder_conditional_strata", "bladder_recurrences.csv", paste(PH, "; stratified by event number, robust SE by id"), list(ties = "efron"), B2)
add("kidney_pairs", "kidney_catheter.csv", paste(PH, "; two rows a subject, robust SE by id"), list(covariates = c("age", "sex")), cox_out(fit(Surv(time, status) ~ age + sex, ki, cluster = id)))
## 9. case weights
am$g <- +(am$group == "Nonmaintain"); am$row <- seq_len(nrow(am)); rp <- am[rep(seq_len(nrow(am)), am$weight_int), ]
W <- list(); for (t in c("breslow", "efron")) { W[[paste0("integer_weights_", t)]] <- cox_out(fit(Surv(time, status) ~ g, am, t, weights = weight_int)); W[[paste0("rows_repeated_", t)]] <- cox_out(fit(Surv(time, status) ~ g, rp, t)) }
W$fractional_weights_breslow_robust <- cox_out(fit(Surv(time, status) ~ g, am, "breslow", weights = weight_dec, cluster = row)); W$fractional_weights_efron_robust <- cox_out(fit(Surv(time, status) ~ g, am, "efron", weights = weight_dec, cluster = row))
add("aml_weights", "aml_weights.csv", paste(PH, "; case weights"), list(covariate = "g = 1 for Nonmaintain"), W, note = "integer weights equal repeated rows under Breslow only; under Efron they differ (weights share the tie correction, repeated rows are more ties)")
write_expected(list(topic = "Proportional-hazards regression", software = software("survival", "KMsurv"),
  conventions = list(covariates = "used as they are (no centring matters for coefficients); log-likelihoods are partial log-likelihoods without the constant",
    tests = "lr 2*(l1-l0); Wald b'V^-1 b; score at zero", concordance = "pairs where the earlier time is an event (a censoring tied with an event counts as later); ties in the linear predictor count one half; pairs of events at the same time are left out (tied_y, tied_xy); within strata only; SE = infinitesimal jackknife, summed within cluster where the fit has clusters",
    baseline = "cumulative baseline hazard; the increment at a tied time follows the tie method (Efron: sum of 1/(partly reduced risk sums))", proportionality = "chisq: score test for adding covariate x g(t) (survival >= 3); approx1994: older formula from scaled residuals; g is km: 1 - left limit of the pooled curve, rank: rank of event time, identity: time, log: log time",
    residuals = "in data order (schoenfeld: in event-time order); deviance = sign(M) sqrt(-2(M + d log(d - M))); dfbeta = score residual times covariance", robust = "sandwich D'D, D = dfbeta (times weight) summed within cluster; no small-sample factor"),
  cases = cases))

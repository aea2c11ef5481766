source("../../r/records.R"); source("../../r/penalised.R"); rd <- function(f) read.csv(f, check.names = FALSE)
en <- rd("endometrial.csv"); ui <- rd("urinary_infection.csv"); bw <- rd("birthwt.csv")
logit <- function(f, d, w = NULL) { g <- if (is.null(w)) glm(f, binomial, d, epsilon = 1e-14, maxit = 100) else glm(f, quasibinomial, d, weights = w, epsilon = 1e-14, maxit = 100); X <- model.matrix(g); b <- coef(g); V <- summary(g)$cov.unscaled; se <- sqrt(diag(V)); nm <- names(b)
  q <- logit_ll(b, X, g$y); if (is.null(w)) { near(q$U/sqrt(diag(q$I)), rep(0, length(b)), 1e-8); near(solve(q$I), V, 1e-8); near(q$ll, as.numeric(logLik(g)), 1e-10) }
  null <- sum(g$y*log(mean(g$y)) + (1 - g$y)*log(1 - mean(g$y))); p <- g$fitted.values; o <- order(p); y <- g$y
  prof <- suppressMessages(confint(g)); auc <- { r <- rank(p); n1 <- sum(y); (sum(r[y == 1]) - n1*(n1 + 1)/2)/(n1*(length(y) - n1)) }
  list(coef = named(b, nm), se = named(se, nm), odds_ratio = named(exp(b), nm), z = named(b/se, nm), p = named(2*pnorm(-abs(b/se)), nm), ci95_wald = setNames(lapply(seq_along(b), function(i) b[[i]] + c(-1, 1)*qnorm(.975)*se[[i]]), nm), covariance = unname(V), log_likelihood = q$ll, log_likelihood_null = null, lr_chisq = 2*(q$ll - null), df = length(b) - 1, deviance = deviance(g), aic = AIC(g), c_statistic = auc) }
pci <- function(f, d) { X <- model.matrix(f, d); y <- d[[all.vars(f)[1]]]; g <- glm(f, binomial, d, epsilon = 1e-14); b <- coef(g); m <- as.numeric(logLik(g)); se <- sqrt(diag(vcov(g)))   # profile limits, exact root
  r <- lapply(seq_along(b), function(j) sapply(c(-1, 1), function(s) { h <- function(v) { o <- X[, j]*v; k <- glm.fit(X[, -j, drop = FALSE], y, family = binomial(), offset = o, control = list(epsilon = 1e-13, maxit = 100)); 2*(m + k$deviance/2) - qchisq(.95, 1) }
    uniroot(h, sort(c(b[[j]], b[[j]] + s*4*se[[j]])), tol = 1e-10)$root })); names(r) <- names(b); r }
f1 <- low ~ age + lwt + race_black + race_other + smoke; B <- logit(f1, bw); B$ci95_profile <- pci(f1, bw); B2 <- logit(low ~ smoke, bw)
stopifnot(all(en$HG[en$NV == 1] == 1))
X <- cbind(`(Intercept)` = 1, as.matrix(en[, c("NV", "PI", "EH")])); E1 <- firth_logit(X, en$HG); X2 <- cbind(`(Intercept)` = 1, as.matrix(ui[, -1])); U1 <- firth_logit(X2, ui$case)
g <- suppressWarnings(glm(HG ~ NV + PI + EH, binomial, en, epsilon = 1e-12, maxit = 200)); g0 <- glm(HG ~ PI + EH, binomial, en[en$NV == 0, ], epsilon = 1e-14)
suppressPackageStartupMessages(library(brglm2)); near(coef(glm(HG ~ NV + PI + EH, binomial, en, method = "brglmFit", type = "AS_mean", epsilon = 1e-12, maxit = 1000)), unlist(E1$coef), 1e-7)
near(coef(glm(case ~ ., binomial, ui, method = "brglmFit", type = "AS_mean", epsilon = 1e-12, maxit = 1000)), unlist(U1$coef), 1e-7)
pm <- function(src, q, s, v, how = "from memory") Map(function(a, b, c) pub(src, a, b, c, how), q, s, v)
write_expected(list(topic = "Logistic regression, ordinary and Firth-penalised", software = software("MASS", "brglm2"),
  conventions = list(null = "penalised null: intercept free, other coefficients 0, penalty from the full information matrix", limits = "profile: cut at 3.841/2; wald: estimate +/- 1.96 SE", c_statistic = "area under the ROC curve, ties one half"),
  cases = list(
  case("birthwt", "birthwt.csv", "logistic regression", list(outcome = "low", covariates = c("age", "lwt", "race_black", "race_other", "smoke")), B, rel = 1e-8),
  case("birthwt_smoke", "birthwt.csv", "logistic regression", list(outcome = "low", covariates = "smoke"), B2, pm("Hosmer & Lemeshow low birth weight data", "coef smoke", "0.7041", B2$coef$smoke), rel = 1e-8, note = "odds ratio equals the cross-product ratio of the 2x2 table"),
  case("endometrial_firth", "endometrial.csv", "Firth-penalised", list(outcome = "HG", covariates = c("NV", "PI", "EH")), E1, pm("Heinze & Schemper 2002, Stat Med 21:2409; R package logistf documentation", c("coef NV", "coef PI", "coef EH", "profile lower NV", "profile upper NV"), c("2.929", "-0.035", "-2.604", "0.610", "7.855"), c(E1$coef$NV, E1$coef$PI, E1$coef$EH, E1$ci95_profile$NV)), rel = 1e-6),
  case("endometrial_ordinary", "endometrial.csv", "ordinary fit under separation: NV has no finite estimate (+infinity); limit of the rest", NULL, list(coef_NV = Inf, log_likelihood_limit = as.numeric(logLik(g0)), other_coef_limit = as.list(coef(g0)), lr_chisq_limit = 2*(as.numeric(logLik(g0)) - as.numeric(logLik(glm(HG ~ 1, binomial, en))))), rel = 1e-7, note = "the limit is the fit on NV = 0 rows: all NV = 1 rows are high grade"),
  case("urinary_infection_firth", "urinary_infection.csv", "Firth-penalised", list(outcome = "case", covariates = colnames(X2)[-1]), U1, pm("R package logistf, documentation example", c("coef age", "coef vic", "coef dia", "LR chi-square"), c("-1.10598", "2.26887", "3.09601", "49.09064"), c(U1$coef$age, U1$coef$vic, U1$coef$dia, U1$lr_chisq)), rel = 1e-6))))

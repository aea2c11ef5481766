source("../../r/records.R")
suppressPackageStartupMessages(library(survival))
# three sites by the number of the subject; both catheters of a subject are at one site
d <- read.csv("kidney_catheter.csv"); d$site <- d$id %% 3
d$week <- pmax(1, ceiling(d$time/7))*7
tight <- coxph.control(eps = 1e-12, toler.chol = 1e-14, iter.max = 50)
hazards <- function(form, ties, clustered) { f <- if (clustered) coxph(form, d, ties = ties, cluster = id, control = tight) else coxph(form, d, ties = ties, control = tight)
  list(coefficients = arr(coef(f)), se = arr(sqrt(diag(if (clustered) f$naive.var else f$var))), robust_se = if (clustered) arr(sqrt(diag(f$var))), log_likelihood = f$loglik[2]) }
rounds <- function(ties) hazards(Surv(time, status) ~ sex + age + strata(site), ties, TRUE)
# few people: influence times the change by one Newton step without the person, Student's t on people - 1
few <- function(ties) { m <- coxph(Surv(time, status) ~ sex + age + strata(site), d, ties = ties, control = tight); a <- as.matrix(residuals(m, "dfbeta", collapse = d$id)); b <- coef(m); g <- sort(unique(d$id))
  D <- t(sapply(g, function(i) b - suppressWarnings(coef(coxph(Surv(time, status) ~ sex + age + strata(site), d[d$id != i, ], ties = ties, init = b, control = coxph.control(iter.max = 1, eps = 1e-13))))))
  se <- sqrt(diag((t(a) %*% D + t(D) %*% a)/2)); df <- length(g) - 1; list(se = arr(se), df = df, lower = arr(exp(b - qt(.975, df)*se)), p = arr(2*pt(-abs(b/se), df))) }
weekly <- function(ties) hazards(Surv(week, status) ~ sex + strata(site), ties, FALSE)
test <- survdiff(Surv(week, status) ~ sex + strata(site), d)
curve <- summary(survfit(Surv(week, status) ~ sex, d, conf.type = "log-log"), times = c(28, 91, 182))
# failures seen at one of the visits every 30 days only
d$left <- ifelse(d$status == 1, floor((d$time - 1)/30)*30, d$time); d$right <- ifelse(d$status == 1, d$left + 30, NA)
d$left2 <- ifelse(d$left == 0, NA, d$left)
# the sandwich from scores by central differences: where failures lie before the first visit (left-censored), survreg's own robust variance is not that of its likelihood
upper <- list(weibull = function(z) exp(-exp(z)), exponential = function(z) exp(-exp(z)), lognormal = function(z) pnorm(z, lower.tail = FALSE), loglogistic = function(z) plogis(z, lower.tail = FALSE))
between <- function(dist) { f <- survreg(Surv(left2, right, type = "interval2") ~ sex + age + factor(site), d, dist = dist, control = survreg.control(rel.tolerance = 1e-14, maxiter = 200))
  X <- model.matrix(f); k <- ncol(f$var); R <- ifelse(is.na(d$right), Inf, d$right)
  rows <- function(q) { s <- if (k > 5) exp(q[6]) else 1; S <- function(t) upper[[dist]]((log(t) - X %*% q[1:5])/s); log(S(d$left) - ifelse(is.finite(R), S(R), 0)) }
  at <- c(coef(f), if (k > 5) log(f$scale)); near(sum(rows(at)), f$loglik[2], 1e-9, "log-likelihood")
  U <- sapply(1:k, function(j) { h <- 1e-3*sqrt(f$var[j, j]); e <- replace(numeric(k), j, h); (rows(at - 2*e) - 8*rows(at - e) + 8*rows(at + e) - rows(at + 2*e))/(12*h) })
  robust <- f$var %*% crossprod(rowsum(U, d$id)) %*% f$var
  list(coefficients = arr(coef(f)), scale = f$scale, se = arr(sqrt(diag(f$var))[1:5]), robust_se = arr(sqrt(diag(robust))[1:5]), log_likelihood = f$loglik[2]) }
write_expected(list(topic = "Sites together without their rows", software = software("survival"),
  conventions = list(sites = "subjects by id modulo 3", rounds = "strata are the sites; robust errors by subject", weekly = "times drawn up to the end of their week", between = "interval2; the coefficients of R's survreg are intercept, sex, age, site 1, site 2"),
  cases = list(
    case("rounds", "kidney_catheter.csv", "hazards within sites, by subject", NULL, list(efron = c(rounds("efron"), list(few_people = few("efron"))), breslow = c(rounds("breslow"), list(few_people = few("breslow")))), rel = 1e-8),
    case("weekly", "kidney_catheter.csv", "the same in weeks, each row on its own", NULL, list(efron = weekly("efron"), breslow = weekly("breslow"), log_rank = test$chisq,
      at = arr(c(28, 91, 182)), female = list(share = arr(curve$surv[4:6]), lower = arr(curve$lower[4:6]), upper = arr(curve$upper[4:6]))), rel = 1e-8),
    case("between", "kidney_catheter.csv", "accelerated models of failures between visits", NULL, lapply(list(weibull = "weibull", "log-normal" = "lognormal", "log-logistic" = "loglogistic", exponential = "exponential"), between), rel = 1e-6))))

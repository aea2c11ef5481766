source("../../r/records.R"); source("../../r/accelerated.R"); source("../../r/likelihood.R"); rd <- function(f) read.csv(f, check.names = FALSE)
v <- rd("visits.csv"); lu <- na.omit(rd("../aft/lung.csv")[, c("time", "status", "age", "sex", "ecog")]); bc <- rd("../aft/breast_cosmesis.csv")
inf <- function(x) ifelse(is.na(x), Inf, x)
block <- function(X, left, right, law, entry = rep(0, length(left)), cluster = NULL, at = NULL, ts = NULL, start = NULL) {
  p <- ncol(X); f <- function(q) row_ll(q, X, left, right, entry, law)
  if (is.null(start)) { e <- survreg(Surv(ifelse(left == 0, NA, left), ifelse(is.finite(right), right, NA), type = "interval2") ~ X - 1, dist = if (law == "gengamma") "lognormal" else law); start <- c(coef(e), log(e$scale), if (law == "gengamma") .3) }
  m <- fit_ml(unname(start), f); o <- list(n = length(left), estimates = m$par, covariance = m$V, log_likelihood = m$ll, aic = 2*length(m$par) - 2*m$ll)
  if (!is.null(cluster)) o$robust <- by_cluster(m$influence, cluster)
  if (!is.null(at)) { V <- if (is.null(cluster)) m$V else o$robust
    S <- function(q, t) { l <- law_of(law, if (law == "gengamma") q[p + 2]); exp(l$lt((log(t) - sum(at*q[1:p]))/exp(q[p + 1]))) }
    Q <- function(q, s) exp(uniroot(function(lt) S(q, exp(lt)) - (1 - s), c(-5, 15), tol = 1e-14)$root)
    se <- function(h) { J <- jacobian(h, m$par); sqrt(diag(J %*% V %*% t(J))) }
    o$shares <- list(at = ts, not_yet = sapply(ts, function(t) S(m$par, t)), se = sapply(ts, function(t) se(function(q) S(q, t))))
    o$quantiles <- list(shares = c(.25, .5, .75), times = sapply(c(.25, .5, .75), function(s) Q(m$par, s)), se = sapply(c(.25, .5, .75), function(s) se(function(q) Q(q, s)))) }
  o }
X <- cbind(1, v$group, v$grade); ret <- ifelse(v$end == 1, inf(v$right), Inf)
LU <- block(cbind(1, lu$age, lu$sex, lu$ecog), lu$time, ifelse(lu$status == 1, lu$time, Inf), "gengamma", at = c(1, 60, 1, 1), ts = c(180, 365))
BC <- block(cbind(1, +(bc$treatment == "radio+chemo")), bc$left, inf(bc$right), "gengamma", at = c(1, 1), ts = c(12, 24))
laws <- c(weibull = "weibull", lognormal = "lognormal", loglogistic = "loglogistic", gengamma = "gengamma")
EN <- lapply(laws, function(k) block(X, v$left, ret, k, v$entry, v$person, c(1, 1, 2), c(60, 91, 182)))
NE <- lapply(laws[4], function(k) block(X, v$left, ret, k, at = c(1, 0, 3), ts = c(60, 91, 182)))
write_expected(list(topic = "Visits: intervals, late entry, competing ends", software = software("survival", "numDeriv"),
  conventions = list(estimates = "intercept, coefficients, log scale, and the shape of the generalised gamma law (1: Weibull, 0: log-normal)", entry = "log-likelihood less log S(entry)", robust = "scores summed within persons, no small-sample factor"),
  cases = list(
    case("generalised_gamma_lung", "../aft/lung.csv", "direct maximisation", list(covariates = c("age", "sex", "ecog")), LU, rel = 1e-5),
    case("generalised_gamma_cosmesis", "../aft/breast_cosmesis.csv", "direct maximisation", list(covariates = "chemo"), BC, rel = 1e-5),
    case("generalised_gamma_visits", "visits.csv", "direct maximisation", list(covariates = c("group", "grade")), NE, rel = 1e-5),
    case("late_entry", "visits.csv", "direct maximisation", list(covariates = c("group", "grade"), entry = "entry", clusters = "person"), EN, rel = 1e-5))))

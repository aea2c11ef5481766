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

# ---- shares, mean time and median standardised over the grade, other ends counted as not back ------------------------------------
# for a pattern: F(t) = integral of the density of the end asked about times the other's tail
figures <- function(fits, x1, x2, dens, mix, times, horizon, V, influence, cluster) {
  par <- unlist(lapply(fits, function(f) f$par)); k <- length(fits[[1]]$par)
  inc <- function(q, g, grade, t) { a <- q[1:k]; b <- q[-(1:k)]; mu <- sum(a[1:3]*c(1, g, grade)); s <- exp(a[4])
    if (length(b) == 0) return(pnorm((log(t) - mu)/s))
    integrate(function(u) dlnorm(u, mu, s)*plnorm(u, sum(b[1:3]*c(1, g, grade)), exp(b[4]), lower.tail = FALSE), 0, t, rel.tol = 1e-12, subdivisions = 1000)$value }
  out <- function(q, g, per = NULL) { F <- function(t) if (is.null(per)) sum(sapply(names(mix), function(z) mix[[z]]*inc(q, g, as.numeric(z), t))) else inc(q, g, per, t)
    c(sapply(times, F), horizon - integrate(Vectorize(F), 0, horizon, rel.tol = 1e-11)$value) }
  med <- function(q, g) uniroot(function(t) sum(sapply(names(mix), function(z) mix[[z]]*inc(q, g, as.numeric(z), t))) - .5, c(1, horizon), tol = 1e-12)$root
  both <- function(q) c(out(q, 0), med(q, 0), out(q, 1), med(q, 1)); m <- length(times) + 2
  est <- both(par); J <- jacobian(both, par)
  part <- function(g) { base <- est[g*m + seq_len(m)]; d <- 1e-4; slope <- (sum(sapply(names(mix), function(z) mix[[z]]*(inc(par, g, as.numeric(z), base[m] + d) - inc(par, g, as.numeric(z), base[m] - d)))))/(2*d)
    sapply(names(mix), function(z) c(out(par, g, as.numeric(z)) - base[-m], -(inc(par, g, as.numeric(z), base[m]) - .5)/slope)) }
  P <- rbind(part(0), part(1))[, as.character(v$grade)]/nrow(v) # outputs by rows of data
  D <- rbind(diag(2*m), cbind(-diag(m), diag(m)))
  U <- D %*% (if (is.null(cluster)) P else J %*% t(influence) + P); S <- if (is.null(cluster)) rowSums(U^2) + diag(D %*% J %*% V %*% t(J) %*% t(D)) else rowSums(t(rowsum(t(U), cluster))^2)
  units <- if (is.null(cluster)) nrow(v) else length(unique(cluster)); se <- sqrt(S*units/(units - k)); q <- qt(.975, units - k); e <- as.vector(D %*% est)
  top <- c(rep(1, length(times)), horizon); lim <- function(i) { j <- (i - 1) %% m + 1; if (j == m) e[i]*exp(c(-1, 1)*q*se[i]/e[i]) else { p <- e[i]/top[j]; top[j]*plogis(qlogis(p) + c(-1, 1)*q*se[i]/top[j]/(p*(1 - p))) } }
  L <- t(sapply(1:(2*m), lim)); d <- 2*m + 1:m; a <- 1:m; b <- m + 1:m; r <- (se[a]^2 + se[b]^2 - se[d]^2)/(2*se[a]*se[b])
  lo <- sqrt((e[b] - L[b, 1])^2 + (L[a, 2] - e[a])^2 - 2*r*(e[b] - L[b, 1])*(L[a, 2] - e[a])); hi <- sqrt((L[b, 2] - e[b])^2 + (e[a] - L[a, 1])^2 - 2*r*(L[b, 2] - e[b])*(e[a] - L[a, 1]))
  list(outputs = "shares at the times, mean time up to the horizon, median; group 0, group 1, difference", times = times, horizon = horizon, estimate = e, se = se, lower = c(L[, 1], e[d] - lo), upper = c(L[, 2], e[d] + hi)) }
ml <- function(left, right, law, entry) { f <- function(q) row_ll(q, X, left, right, entry, law)
  e <- survreg(Surv(ifelse(left == 0, NA, left), ifelse(is.finite(right), right, NA), type = "interval2") ~ X - 1, dist = law); fit_ml(unname(c(coef(e), if (law != "exponential") log(e$scale))), f) }
mix <- as.list(table(v$grade)/nrow(v)); zero <- rep(0, nrow(v))
one <- ml(v$left, ret, "lognormal", zero); ONE <- figures(list(one), mix = mix, times = c(60, 91, 140), horizon = 182, V = one$V, cluster = NULL)
day <- ifelse(v$end == 0, v$left, v$right) # every end to the day: both models have the rows as they stand
r1 <- ml(day, ifelse(v$end == 1, day, Inf), "lognormal", v$entry); r2 <- ml(day, ifelse(v$end == 2, day, Inf), "lognormal", v$entry)
TWO <- figures(list(r1, r2), mix = mix, times = c(60, 91, 140), horizon = 182, influence = cbind(r1$influence, r2$influence), cluster = v$person)
write_expected(list(topic = "Visits: intervals, late entry, competing ends", software = software("survival", "numDeriv"),
  conventions = list(estimates = "intercept, coefficients, log scale, and the shape of the generalised gamma law (1: Weibull, 0: log-normal)", entry = "log-likelihood less log S(entry)", robust = "scores summed within persons, no small-sample factor"),
  cases = list(
    case("generalised_gamma_lung", "../aft/lung.csv", "direct maximisation", list(covariates = c("age", "sex", "ecog")), LU, rel = 1e-5),
    case("generalised_gamma_cosmesis", "../aft/breast_cosmesis.csv", "direct maximisation", list(covariates = "chemo"), BC, rel = 1e-5),
    case("generalised_gamma_visits", "visits.csv", "direct maximisation", list(covariates = c("group", "grade")), NE, rel = 1e-5),
    case("late_entry", "visits.csv", "direct maximisation", list(covariates = c("group", "grade"), entry = "entry", clusters = "person"), EN, rel = 1e-5),
    case("standardised_intervals", "visits.csv", "delta method, log-normal, other ends taken for ends of follow-up", list(covariates = c("group", "grade")), ONE, rel = 1e-5),
    case("standardised_competing", "visits.csv", "delta method by persons, log-normal both, each end on the last day of its interval", list(covariates = c("group", "grade"), entry = "entry", clusters = "person"), TWO, rel = 1e-5))))

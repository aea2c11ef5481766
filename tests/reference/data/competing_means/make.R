# Curves and restricted means beside competing ends. Package survival for probabilities in states, restricted mean times and influences; the delta
# method by definition in base R: each mean is linear in the hazards of each time, so that its derivatives are exact differences.
source("../../r/records.R"); suppressMessages(library(survival))
rd <- function(f) read.csv(f, check.names = FALSE); m <- rd("mgus2.csv"); b <- rd("../competing/bmt.csv"); l <- rd("../competing/melanoma.csv"); f <- rd("fingers.csv")
counts <- function(entry, time, cause) { t <- sort(unique(time)); k <- function(c) sapply(t, function(u) sum(time == u & cause %in% c))
  list(t = t, n = sapply(t, function(u) sum(entry < u & time >= u)), own = k(1), other = k(setdiff(unique(cause), 0:1))) }
# area under 1 - F to a horizon, and the share at it, from the hazards of each time
walk <- function(t, p, q, horizon) { S <- 1; G <- 1; area <- 0; last <- 0
  for (i in which(t <= horizon)) { area <- area + G*(t[i] - last); last <- t[i]; G <- G - S*p[i]; S <- S*(1 - p[i] - q[i]) }
  c(area + G*(horizon - last), G) }
delta <- function(entry, time, cause, horizon) { k <- counts(entry, time, cause); p <- k$own/k$n; q <- k$other/k$n; base <- walk(k$t, p, q, horizon); v <- c(0, 0)
  for (i in which(k$own + k$other > 0 & k$t <= horizon)) { up <- p; up[i] <- up[i] + 1; uq <- q; uq[i] <- uq[i] + 1; a <- walk(k$t, up, q, horizon) - base; c <- walk(k$t, p, uq, horizon) - base
    v <- v + (p[i]*(1 - p[i])*a^2 - 2*p[i]*q[i]*a*c + q[i]*(1 - q[i])*c^2)/k$n[i] }
  sqrt(pmax(0, v)) }
# influences of the rows by survfit, integrated to the horizon; summed within clusters here
robust <- function(entry, time, cause, cluster, horizon) { late <- any(entry > -Inf); st <- factor(cause, c(0, sort(unique(cause[cause > 0])))); d <- data.frame(time, st, row = seq_along(time)); if (late) d$entry <- entry
  s <- if (late) survfit(Surv(entry, time, st) ~ 1, d, id = row, influence = TRUE) else survfit(Surv(time, st) ~ 1, d, id = row, influence = TRUE)
  I <- s$influence.pstate; k <- dim(I)[2] - length(s$time) + seq_along(s$time); j <- 2
  keep <- s$time <= horizon; w <- diff(c(s$time[keep], horizon)); x <- I[, k[keep], j]; dim(x) <- c(length(time), sum(keep)); y <- drop(x %*% w); z <- x[, sum(keep)]
  area <- horizon - sum(s$pstate[keep, j]*w); near(summary(s, rmean = horizon)$table[j, "rmean"], horizon - area, 1e-9, "restricted mean time in the state")
  sum2 <- function(v) sqrt(sum(tapply(v, cluster, sum)^2))
  list(area = area, not_yet = 1 - s$pstate[sum(keep), j], area_se = sum2(y), not_yet_se = sum2(z)) }
Z <- qnorm(.975)
block <- function(time, cause, horizons, cluster = seq_along(time), entry = rep(-Inf, length(time))) lapply(horizons, function(h) { own <- seq_along(time)
  rows <- robust(entry, time, cause, own, h); clustered <- robust(entry, time, cause, cluster, h); d <- delta(entry, time, cause, h); k <- counts(entry, time, cause)
  near(walk(k$t, k$own/k$n, k$other/k$n, h), c(rows$area, rows$not_yet), 1e-9, "walk")
  s <- rows$not_yet; e <- d[2]/(s*log(s))
  list(horizon = h, estimate = rows$area, se_delta = d[1], se_rows = rows$area_se, se_clusters = clustered$area_se,
    not_yet = s, not_yet_se_delta = d[2], not_yet_se_rows = rows$not_yet_se, not_yet_se_clusters = clustered$not_yet_se, loglog_from_se_delta = c(exp(log(s)*exp(-Z*e)), exp(log(s)*exp(Z*e)))) })
# limits of a weighted sum of shares by definition: score limits of each stratum at one z', the sum of w |p - l| being z times its error with l (1 - l)
tight <- function(f, ends) uniroot(f, ends, tol = 1e-15, maxiter = 2000)$root
score <- function(p, m, z, side) if (side == 1) 1 - score(1 - p, m, z, 0) else if (p == 0) 0 else tight(function(l) p - l - z*sqrt(l*(1 - l)/m), c(0, p))
sum_limit <- function(w, p, m, side) { k <- length(w); m <- ifelse(p > 0 & p < 1, pmax(m/2, m - (k - 1)/k), m); if (all(p == side)) return(side)
  l <- function(z) mapply(score, p, m, z, side); own <- if (k == 1) Z else tight(function(z) { x <- l(z); sum(w*abs(p - x)) - Z*sqrt(sum(w^2*x*(1 - x)/m)) }, Z*c(.999/sqrt(k), 1)); sum(w*l(own)) }
difference_limits <- function(a, b, la, lb, r) { q <- function(x, y) sqrt(x^2 + y^2 - 2*r*x*y); a - b + c(-q(a - la[1], lb[2] - b), q(la[2] - a, b - lb[1])) }
# standardised: weighted sums over strata, influences summed within clusters over strata and groups
standard <- function(time, cause, group, stratum, cluster, h) { w <- table(stratum)/length(time); P <- N <- V <- matrix(0, length(w), 2); est <- matrix(0, 2, 2); v <- matrix(0, 2, 2); x <- array(0, c(length(time), 2, 2))
  for (s in names(w)) for (g in 0:1) { i <- which(stratum == s & group == g); r <- robust(rep(-Inf, length(i)), time[i], cause[i], seq_along(i), h); est[g + 1, ] <- est[g + 1, ] + w[[s]]*c(r$area, 1 - r$not_yet); dv <- delta(rep(-Inf, length(i)), time[i], cause[i], h)^2; v[g + 1, ] <- v[g + 1, ] + w[[s]]^2*dv
    P[match(s, names(w)), g + 1] <- p <- 1 - r$not_yet; V[match(s, names(w)), g + 1] <- dv[2]; N[match(s, names(w)), g + 1] <- if (p > 1e-12) p*(1 - p)/dv[2] else sum(time[i] >= h | (cause[i] > 1 & time[i] <= h))
    d <- data.frame(time = time[i], st = factor(cause[i], sort(unique(c(0, cause)))), row = seq_along(i)); q <- survfit(Surv(time, st) ~ 1, d, id = row, influence = TRUE); I <- q$influence.pstate; k <- dim(I)[2] - length(q$time) + seq_along(q$time); keep <- q$time <= h; u <- I[, k[keep], match("1", q$states)]; dim(u) <- c(length(i), sum(keep))
    x[i, g + 1, 1] <- -w[[s]]*drop(u %*% diff(c(q$time[keep], h))); x[i, g + 1, 2] <- w[[s]]*u[, sum(keep)] }
  sq <- function(y) sqrt(sum(tapply(y, cluster, sum)^2)); P[P < 1e-12] <- 0
  limits <- function(inflation, r) { L <- sapply(1:2, function(g) sapply(0:1, function(side) sum_limit(as.vector(w), P[, g], N[, g]/inflation[g], side))); list(lower = L[1, ], upper = L[2, ], difference = difference_limits(est[2, 2], est[1, 2], L[, 2], L[, 1], r)) }
  rob <- c(sq(x[, 1, 2]), sq(x[, 2, 2]))^2; r <- (sum(rob) - sq(x[, 2, 2] - x[, 1, 2])^2)/(2*sqrt(prod(rob)))
  list(horizon = h, limits_delta = limits(c(1, 1), 0), limits_clusters = limits(pmax(1, rob/v[, 2]), r), mean = est[, 1], share = est[, 2], mean_se_delta = sqrt(v[, 1]), share_se_delta = sqrt(v[, 2]), mean_se_clusters = c(sq(x[, 1, 1]), sq(x[, 2, 1])), share_se_clusters = c(sq(x[, 1, 2]), sq(x[, 2, 2])),
    difference_se_clusters = c(sq(x[, 2, 1] - x[, 1, 1]), sq(x[, 2, 2] - x[, 1, 2])), difference_se_delta = sqrt(colSums(v))) }
M <- "Aalen-Johansen: area under 1 - F and 1 - F itself at each horizon"
write_expected(list(topic = "Restricted means beside competing ends", software = software("survival"),
  conventions = list(estimate = "area under 1 - F to the horizon, F the cumulative incidence of cause 1 (horizon less the restricted mean time in its state)", se_delta = "delta method: multinomial increments of each time; exact derivatives",
    se_rows = "infinitesimal jackknife, the influences of survfit integrated to the horizon", se_clusters = "the same, influences summed within clusters"),
  cases = list(
  case("mgus2_women", "mgus2.csv", M, list(where = "sex = F"), with(m[m$sex == "F", ], block(months, cause, c(60, 120, 240)))),
  case("mgus2_men", "mgus2.csv", M, list(where = "sex = M"), with(m[m$sex == "M", ], block(months, cause, c(60, 120, 240)))),
  case("bmt", "../competing/bmt.csv", M, list(time = "t_dfs"), block(b$t_dfs, b$cause, c(100, 365, 1000))),
  case("melanoma", "../competing/melanoma.csv", M, NULL, block(l$time, l$cause, c(365, 1000, 3000))),
  case("fingers", "fingers.csv", M, list(cluster = "person"), block(f$time, f$cause, c(40, 70, 90), f$person)),
  case("fingers_late_entry", "fingers.csv", M, list(cluster = "person", entry = "entry"), block(f$time, f$cause, c(40, 70, 90), f$person, f$entry)),
  case("fingers_standardised", "fingers.csv", "direct standardisation over grades, groups 0 and 1", list(cluster = "person"), lapply(c(9, 40, 60), function(h) standard(f$time, f$cause, f$group, f$grade, f$person, h))),
  case("mgus2_standardised", "mgus2.csv", "direct standardisation over age bands, women (0) and men (1)", list(strata = "below 65, 65 to 75, above"), lapply(c(60, 120), function(h) with(m, standard(months, cause, +(sex == "M"), (age > 64) + (age > 75), seq_along(months), h)))))))

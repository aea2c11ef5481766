# Inference with few clusters. Package survival for curves, regressions and their influences; the rest is base R by definition.
suppressMessages({library(survival); library(jsonlite)})
d <- read.csv("fingers.csv"); d$row <- seq_len(nrow(d)); k <- read.csv("../cox/kidney_catheter.csv"); l <- read.csv("../cox/lung.csv")
tight <- coxph.control(eps = 1e-13, toler.chol = 1e-14, iter.max = 60)
# bias-reduced sandwich: influence times the change by one Newton step without the cluster
hazard <- function(id, f, data, cluster, ties = "efron", w = rep(1, nrow(data))) { data$w_ <- w
  m <- coxph(f, data, weights = w_, ties = ties, control = tight, x = TRUE); a <- as.matrix(residuals(m, "dfbeta", collapse = cluster, weighted = TRUE)); b <- coef(m)
  g <- sort(unique(cluster)); D <- t(sapply(g, function(i) b - suppressWarnings(coef(coxph(f, data[cluster != i, ], weights = w_, ties = ties, init = b, control = coxph.control(iter.max = 1, eps = 1e-13))))))
  if (length(b) == 1) D <- t(D); V <- (t(a) %*% D + t(D) %*% a)/2; se <- sqrt(diag(V)); df <- length(g) - 1; q <- qt(.975, df)
  list(id = id, coef = unname(b), sandwich_se = unname(sqrt(diag(t(a) %*% a))), jackknife_se = unname(sqrt(diag(t(D) %*% D))), se = unname(se), covariance = unname(V), df = df, lower = unname(exp(b - q*se)), upper = unname(exp(b + q*se)), p = unname(2*pt(-abs(b/se), df))) }
l2 <- l[!is.na(l$inst), ]
hazards <- list(
  hazard("kidney catheters, age and sex, persons", Surv(time, status) ~ age + sex, k, k$id),
  hazard("fingers, group within grades, persons", Surv(time, cause == 1) ~ group + strata(grade), d, d$person),
  hazard("fingers, group and baseline within grades, late entry, Breslow", Surv(entry, time, cause == 1) ~ group + before + strata(grade), d, d$person, "breslow"),
  hazard("fingers, group and baseline, late entry, Efron", Surv(entry, time, cause == 1) ~ group + before, d, d$person),
  hazard("fingers, weights, Breslow", Surv(time, cause == 1) ~ group + before, d, d$person, "breslow", d$weight),
  hazard("lung, age and sex, institutions", Surv(time, status) ~ age + sex, l2, l2$inst))
big <- ceiling(d$person/5)
# log-rank: score residuals at 0, and the score without each cluster
logrank <- function(id, groups, strata = rep(1, nrow(d)), entry = FALSE, cluster = d$person, a = NULL) { X <- outer(groups, sort(unique(groups))[-1], "==") + 0
  sc <- function(keep) { e <- d[keep, ]; e$X_ <- X[keep, , drop = FALSE]; e$s_ <- strata[keep]; y <- if (entry) with(e, Surv(entry, time, cause == 1)) else with(e, Surv(time, cause == 1))
    m <- suppressWarnings(coxph(y ~ X_ + strata(s_), e, ties = "breslow", init = rep(0, ncol(X)), control = coxph.control(iter.max = 0))); as.matrix(residuals(m, "score")) }
  all <- rep(TRUE, nrow(d)); r <- sc(all); U <- colSums(r); u <- rowsum(r, cluster, reorder = TRUE); g <- sort(unique(cluster)); D <- t(sapply(g, function(i) U - colSums(sc(cluster != i)))); if (length(U) == 1) D <- t(D)
  V <- (t(u) %*% D + t(D) %*% u)/2; G <- length(g); q <- length(U); Q <- drop(U %*% solve(V) %*% U); f <- Q*(G - q)/(q*(G - 1)); o <- list(id = id, surplus = unname(U), covariance = unname(V), chi = Q, df = q, f = f, p = pf(f, q, G - q, lower.tail = FALSE))
  if (!is.null(a)) { b <- a[-1] - a[1]; t <- sum(b*U)/sqrt(drop(b %*% V %*% b)); o$trend <- list(t = t, p = 2*pt(-abs(t), G - 1)) }; o }
logranks <- list(logrank("two groups", d$group), logrank("two groups within grades", d$group, d$grade), logrank("three grades and their trend", d$grade, a = 1:3), logrank("two groups within grades, late entry", d$group, d$grade, TRUE), logrank("two groups, six large clusters", d$group, cluster = big))
# Aalen-Johansen: influences of the rows, summed within clusters here (survfit of several states passes over its argument cluster)
d$state <- factor(d$cause, 0:2, c("none", "back", "other"))
incidence <- function(id, f, cluster = d$person) { s <- survfit(f, d, id = row, influence = TRUE); I <- s$influence.pstate; I <- I[, dim(I)[2] - length(s$time) + seq_along(s$time), ]
  se <- sqrt(apply(I, 2:3, function(x) sum(tapply(x, cluster, sum)^2))); keep <- s$time %in% d$time
  list(id = id, time = s$time[keep], incidence_1 = s$pstate[keep, 2], se_1 = se[keep, 2], incidence_2 = s$pstate[keep, 3], se_2 = se[keep, 3]) }
incidences <- list(incidence("persons", Surv(time, state) ~ 1), incidence("rows", Surv(time, state) ~ 1, cluster = d$row),
  incidence("persons, late entry", Surv(entry, time, state) ~ 1), incidence("rows, late entry", Surv(entry, time, state) ~ 1, cluster = d$row))
# linear regression: residuals adjusted by (I - H_gg)^(-1/2) or (I - H_gg)^(-1); Satterthwaite's degrees of freedom by the full matrices
root <- function(M) { e <- eigen((M + t(M))/2); v <- ifelse(e$values > 1e-9, 1/sqrt(pmax(e$values, 1e-300)), 0); e$vectors %*% (v*t(e$vectors)) }
linear <- function(id, X, y, cluster) { n <- nrow(X); M <- solve(crossprod(X)); H <- X %*% M %*% t(X); b <- drop(M %*% crossprod(X, y)); e <- drop(y - X %*% b); R <- diag(n) - H; g <- unique(cluster)
  B <- lapply(g, function(i) { r <- which(cluster == i); root(R[r, r, drop = FALSE]) %*% X[r, , drop = FALSE] %*% M })
  S <- sapply(seq_along(g), function(i) { r <- which(cluster == g[i]); drop(crossprod(B[[i]], e[r])) }); S <- matrix(S, ncol(X)); V <- S %*% t(S)
  J <- matrix(sapply(g, function(i) { r <- which(cluster != i); b - drop(solve(crossprod(X[r, , drop = FALSE]), crossprod(X[r, , drop = FALSE], y[r]))) }), ncol(X))
  df <- sapply(seq_len(ncol(X)), function(j) { P <- sapply(seq_along(g), function(i) { r <- which(cluster == g[i]); R[, r, drop = FALSE] %*% B[[i]][, j] }); Q <- crossprod(P); sum(diag(Q))^2/sum(Q^2) })
  se <- sqrt(diag(V)); list(id = id, coef = unname(b), se = unname(se), df = df, p = unname(2*pt(-abs(b/se), df)), lower = unname(b - qt(.975, df)*se), upper = unname(b + qt(.975, df)*se), covariance = unname(V), jackknife_se = unname(sqrt(diag(J %*% t(J))))) }
linears <- list(linear("change by group", cbind(1, d$group), d$after - d$before, d$person), linear("baseline and group", cbind(1, d$before, d$group), d$after, d$person),
  linear("baseline and group, six large clusters", cbind(1, d$before, d$group), d$after, big), linear("mean change", cbind(rep(1, nrow(d))), d$after - d$before, d$person), linear("rows by themselves", cbind(1, d$before, d$group), d$after, d$row))
# kappa and shares: derivatives by the weight of each cluster, by differences in R's own arithmetic
byweights <- function(f, cluster, h = 1e-4) { g <- unique(cluster); sapply(g, function(i) { w <- function(x) ifelse(cluster == i, 1 + x, 1); (8*(f(w(h)) - f(w(-h))) - (f(w(2*h)) - f(w(-2*h))))/(12*h) }) }
kap <- function(W) function(w) { p <- xtabs(w ~ factor(d$first, 0:2) + factor(d$second, 0:2))/sum(w); r <- rowSums(p); s <- colSums(p); (sum(W*p) - sum(W*(r %o% s)))/(1 - sum(W*(r %o% s))) }
W <- list(unweighted = diag(3), linear = 1 - abs(outer(0:2, 0:2, "-"))/2, quadratic = 1 - outer(0:2, 0:2, "-")^2/4); G <- length(unique(d$person))
kappas <- lapply(names(W), function(nm) { f <- kap(W[[nm]]); s <- byweights(f, d$person); list(id = nm, kappa = f(rep(1, nrow(d))), linear_se = sqrt(G/(G - 1)*sum(s^2)), se = sqrt((G - 1)/G*sum(sapply(unique(d$person), function(i) f(rep(1, nrow(d))) - f(+(d$person != i)))^2)), df = G - 1) })
share <- function(id, hit, within) { r <- which(within); c <- d$person[r]; x <- hit[r]; g <- length(unique(c)); p <- mean(x); u <- tapply(x - p, c, sum); v <- g/(g - 1)*sum(u^2)/length(x)^2
  eff <- max(1, v*length(x)/(p*(1 - p))); ne <- length(x)/eff; z <- qt(.975, g - 1); mid <- p + z^2/(2*ne); half <- z*sqrt(p*(1 - p)/ne + z^2/(4*ne^2)); list(id = id, n = length(x), clusters = g, share = p, se = sqrt(v), design_effect = eff, lower = (mid - half)/(1 + z^2/ne), upper = (mid + half)/(1 + z^2/ne)) }
pos <- d$reading >= 2.5; shares <- list(share("sensitivity", pos, d$torn == 1), share("specificity", !pos, d$torn == 0), share("accuracy", pos == (d$torn == 1), rep(TRUE, nrow(d))))
# band: sup of the influences of log S under normal multipliers, one a person, over the variance of each time
s <- survfit(Surv(time, cause == 1) ~ 1, d, cluster = person, influence = 3); inside <- s$surv > 0 & s$surv < 1; ev <- which(inside & s$n.event > 0); r <- seq(min(ev), max(ev))
I <- sweep(s$influence.surv[, r, drop = FALSE], 2, s$surv[r], "/"); sd <- sqrt(colSums(I^2)); set.seed(7); B <- 400000; crit <- numeric(0)
for (i in 1:40) { xi <- matrix(rnorm(B/40*nrow(I)), ncol = nrow(I)); crit <- c(crit, apply(abs(xi %*% sweep(I, 2, sd, "/")), 1, max)) }
band <- list(times = s$time[r], error_of_log = sd, critical = unname(quantile(crit, .95, type = 1)), critical_90 = unname(quantile(crit, .9, type = 1)))
writeLines(toJSON(list(topic = "Inference with few clusters", software = list(R = as.character(getRversion()), survival = as.character(packageVersion("survival"))), hazards = hazards, logranks = logranks, incidences = incidences, linears = linears, kappas = kappas, shares = shares, band = band), digits = 17, auto_unbox = TRUE, pretty = TRUE), "expected.json")

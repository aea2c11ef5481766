# Shares if those lost to follow-up were unlike those followed. In base R by definition: the product of the matrices of chances of each time in four
# states (followed, lost, with the event, ended otherwise), the hazard of the lost in continuous time multiplied by a factor. Derivatives by the complex
# step, which is exact: by the weight of each row (infinitesimal jackknife) and by each chance (delta method). At the factors 0, 1 and infinity the package
# survival has the same figures.
source("../../r/records.R"); suppressMessages(library(survival))
f <- read.csv("../competing_means/fingers.csv"); i <- seq_len(nrow(f)) %% 4 == 0
# every fourth row is lost after three fifths of its time; whoever has no end otherwise was followed until the data were closed
f$time[i] <- pmax(f$entry[i] + 1, ceiling(.6*f$time[i])); f$cause[i] <- 0; f$lost <- as.integer(i)
chances <- function(d, w = rep(1, nrow(d))) { t <- sort(unique(d$time)); by <- function(keep) sapply(t, function(u) sum(w[keep & d$time == u]))
  n <- sapply(t, function(u) sum(w[d$entry < u & d$time >= u])); a <- by(d$cause == 1); b <- by(d$cause > 1); l <- by(d$lost == 1)
  left <- n - a - b; list(t = t, n = n, left = left, h = a/n, k = b/n, l = ifelse(Re(left) > 0, l/left, 0)) }
share <- function(x, L, delta) { P <- c(1, 0, 0, 0) + 0i*x$t[1]
  for (i in which(x$t <= L)) { h <- x$h[i]; k <- x$k[i]; l <- x$l[i]; sure <- Re(h) >= 1
    q <- if (delta == 1) h else if (delta == 0) 0*h else if (sure || delta == Inf) (if (Re(h) > 0) 1 else 0) + 0*h else 1 - exp(delta*log(1 - h)); o <- if (sure) 0*h else k*(1 - q)/(1 - h)
    M <- rbind(c((1 - h - k)*(1 - l), (1 - h - k)*l, h, k), c(0, 1 - q - o, q, o), c(0, 0, 1, 0), c(0, 0, 0, 1))
    # lost and taken to be back: at once, where the loss lies before the day
    if (delta == Inf && x$t[i] < L) { M[1, 3] <- M[1, 3] + M[1, 2]; M[1, 2] <- 0 }
    P <- drop(P %*% M) }
  if (is.complex(x$h) || is.complex(x$k) || is.complex(x$l)) P[3] else Re(P[3]) }
step <- 1e-30
influence <- function(d, L, delta) sapply(seq_len(nrow(d)), function(i) { w <- rep(1 + 0i, nrow(d)); w[i] <- 1 + step*1i; Im(share(chances(d, w), L, delta))/step })
delta_variance <- function(d, L, delta) { x <- chances(d); slope <- function(what, i) { y <- x; y[[what]][i] <- y[[what]][i] + step*1i; Im(share(y, L, delta))/step }
  v <- 0; for (i in which(x$t <= L)) { a <- if (x$h[i] < 1) slope("h", i) else 0; b <- if (x$h[i] < 1) slope("k", i) else 0; c <- slope("l", i); h <- x$h[i]; k <- x$k[i]; l <- x$l[i]
    v <- v + (a^2*h*(1 - h) + b^2*k*(1 - k) - 2*a*b*h*k)/x$n[i] + (if (l > 0) c^2*l*(1 - l)/x$left[i] else 0) }
  v }
Z <- qnorm(.975)
# the package's figures at the ends and in the middle; with the counts of the day itself, a loss on which is none
held_equal <- function(d, L) { end <- function(v) { s <- survfit(Surv(entry, time, factor(v, 0:4)) ~ 1, cbind(d, row = seq_len(nrow(d))), id = row); s$pstate[max(which(s$time <= L)), match("1", s$states)] }
  lost <- d$lost == 1 & d$time < L; x <- chances(d)
  near(share(x, L, 1), end(d$cause), 1e-12, "as followed"); near(share(x, L, 0), end(ifelse(lost, 4, d$cause)), 1e-12, "none back"); near(share(x, L, Inf), end(ifelse(lost, 1, d$cause)), 1e-12, "all back") }
one <- function(d, L, delta) { x <- chances(d); s <- share(x, L, delta); v <- delta_variance(d, L, delta); u <- influence(d, L, delta); e <- sqrt(v)/((1 - s)*log(1 - s))
  list(factor = delta, share = s, se_delta = sqrt(v), se_clusters = sqrt(sum(tapply(u, d$person, sum)^2)), loglog_from_se_delta = 1 - c(exp(log(1 - s)*exp(Z*e)), exp(log(1 - s)*exp(-Z*e)))) }
tight <- function(f, ends) uniroot(f, ends, tol = 1e-15, maxiter = 2000)$root
block <- function(d, L) { held_equal(d, L); x <- chances(d)
  list(time = L, lost = sum(d$lost == 1 & d$time < L), points = lapply(c(0, .25, 1, 3, Inf), function(k) one(d, L, k)), crosses_half = { g <- function(y) share(x, L, exp(y)) - .5; if (sign(g(log(.01))) == sign(g(log(100)))) NA else exp(tight(g, log(c(.01, 100)))) }) }
# difference of two groups: score limits of each on the size that its error tells, recovered
score <- function(p, m, side) { r <- polyroot(c(m*p^2, -(2*m*p + Z^2), m + Z^2)); sort(Re(r))[side] }
difference <- function(d, L, k) { s <- lapply(1:0, function(g) one(d[d$group == g, ], L, if (g == 1) k else 1/k)); p <- sapply(s, `[[`, "share"); m <- p*(1 - p)/sapply(s, `[[`, "se_delta")^2
  l <- mapply(score, p, m, 1); u <- mapply(score, p, m, 2); q <- p[1] - p[2]; list(factor = k, difference = q, lower = q - sqrt((p[1] - l[1])^2 + (u[2] - p[2])^2), upper = q + sqrt((u[1] - p[1])^2 + (p[2] - l[2])^2)) }
tip <- function(d, L) { at1 <- difference(d, L, 1); names <- if (at1$lower > 0) "lower" else if (at1$upper < 0) "upper" else c("lower", "upper")
  root <- function(what) { g <- function(x) difference(d, L, exp(x))[[what]]; if (sign(g(log(.01))) == sign(g(log(100)))) NA else tight(g, log(c(.01, 100))) }
  r <- sapply(names, root); r <- r[!is.na(r)]; if (!length(r)) NA else exp(unname(r[which.min(abs(r))])) }
early <- f; early$entry <- -Inf
write_expected(list(topic = "Shares after loss to follow-up", software = software("survival"),
  conventions = list(lost = "every fourth row of the file, after three fifths of its time", share = "four states; chance of the lost 1 - (1 - h)^factor", se_delta = "multinomial and binomial chances of each time, derivatives by the complex step",
    se_clusters = "infinitesimal jackknife by the complex step, summed within persons", difference = "group 1, factor, less group 0, its inverse; score limits recovered, from se_delta"),
  cases = list(
    case("fingers", "../competing_means/fingers.csv", "all rows, at risk from the start", NULL, lapply(c(40, 60), function(L) block(within(early, entry <- -1), L))),
    case("fingers_late_entry", "../competing_means/fingers.csv", "all rows, late entry", list(entry = "entry"), lapply(c(40, 60), function(L) block(f, L))),
    case("fingers_difference", "../competing_means/fingers.csv", "groups 1 and 0", NULL, lapply(c(40, 60), function(L) list(time = L, points = lapply(c(.25, 1, 3), function(k) difference(within(early, entry <- -1), L, k)), tips = tip(within(early, entry <- -1), L)))))))

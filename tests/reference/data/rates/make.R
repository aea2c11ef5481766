source("../../r/records.R")
# the first of each are the examples in the help of poisson.test; the others are made up
one <- function(x, T, level = .95) { f <- poisson.test(x, T, conf.level = level); a <- (1 - level)/2
  near(f$conf.int, c(if (x == 0) 0 else qchisq(a, 2*x)/2, qchisq(1 - a, 2*x + 2)/2)/T, 1e-12, "Garwood"); list(events = x, person_time = T, level = level, rate = x/T, lower = f$conf.int[1], upper = f$conf.int[2]) }
two <- function(x, T, level = .95) { f <- poisson.test(x, T, conf.level = level); g <- poisson.test(x, T, alternative = "greater")$p.value; l <- poisson.test(x, T, alternative = "less")$p.value
  list(events = arr(x), person_times = arr(T), level = level, ratio = unname(f$estimate), lower = f$conf.int[1], upper = f$conf.int[2], greater = g, less = l) }
fingers <- read.csv("fingers.csv")
clustered <- function(d) { D <- sum(d$events); T <- sum(d$time); G <- length(unique(d$person)); r <- D/T; u <- tapply(d$events - r*d$time, d$person, sum); v <- G/(G - 1)*sum(u^2)/T^2; eff <- if (D > 0) max(1, v/(D/T^2)) else nrow(d)/G; a <- .025; x <- D/eff
  list(events = D, person_time = T, clusters = G, rate = r, se = sqrt(v), design_effect = eff, lower = (if (x == 0) 0 else qchisq(a, 2*x)/2)/(T/eff), upper = qchisq(1 - a, 2*x + 2)/2/(T/eff)) }
none <- fingers; none$events <- 0; alone <- fingers; alone$person <- seq_len(nrow(alone))
large <- do.call(rbind, lapply(c(31, 999, 1000, 1003, 1801, 1998, 2002, 6000, 1e5, 2e6), function(df) { x <- df + c(-8, -3, -1, -.1, 0, .1, 1, 3, 8)*sqrt(2*df); data.frame(df, x = x[x > 0], lower = pchisq(x[x > 0], df), upper = pchisq(x[x > 0], df, lower.tail = FALSE)) }))
quantiles <- do.call(rbind, lapply(c(999, 1003, 2002, 6000, 1e5, 2e6), function(df) data.frame(df, p = c(.001, .025, .5, .975, .999), x = qchisq(c(.001, .025, .5, .975, .999), df))))
write_expected(list(topic = "Events per person-time", software = software(),
  conventions = list(rate = "limits: Garwood, as poisson.test", ratio = "conditional limits, as poisson.test of two counts; greater and less are the one-sided p-values", clustered = "base R from the formulas: Rao & Scott's design effect of a rate, chi-square limits on what it leaves"),
  cases = list(
    case("rates", "none", "one rate", NULL, list(rates = list(one(137, 24.19893), one(0, 30), one(1, 3.5), one(10, 41.2), one(10, 41.2, .9), one(3, 1200), one(250, 88), one(40000, 1e6)))),
    case("ratios", "none", "two rates", NULL, list(ratios = list(two(c(11, 6 + 8 + 7), c(800, 1083 + 1050 + 878)), two(c(0, 5), c(40, 38)), two(c(5, 0), c(40, 38)), two(c(1, 1), c(10, 30)), two(c(10, 3), c(300, 290), .9), two(c(140, 90), c(900, 910)), two(c(2, 900), c(5, 800))))),
    case("clustered", "fingers.csv", "fingers of persons", list(cluster = "person"), list(fingers = clustered(fingers), without_events = clustered(none), each_its_own = clustered(alone))),
    case("many_degrees", "none", "chi-square with many degrees of freedom", NULL, list(tails = large, quantiles = quantiles), rel = 1e-11))))

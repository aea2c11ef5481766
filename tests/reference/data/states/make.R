source("../../r/records.R"); suppressMessages(library(survival))
read <- function(file) { d <- read.csv(file); d$event <- factor(ifelse(d$to == d$from, -1, d$to), c(-1, sort(unique(c(d$from, d$to))))); d$state <- factor(d$from, levels(d$event)[-1]); d }
# every share, its jackknife error by subject and by cluster, and the areas up to a horizon, from the package's own influences
block <- function(d, cluster = NULL, horizon, most = 50) {
  f <- survfit(Surv(entry, time, event) ~ 1, d, id = id, istate = state, influence = TRUE); I <- f$influence.pstate; ids <- dimnames(I)[[1]]
  k <- dim(I)[3]; by <- if (is.null(cluster)) seq_along(ids) else cluster[match(ids, d$id)]
  sums <- function(x) sqrt(colSums(rowsum(x, by)^2)); se <- t(sapply(seq_along(f$time), function(i) sums(matrix(I[, i + 1, ], ncol = k))))
  if (is.null(cluster)) near(se, f$std.err, 1e-9, "influences and std.err")
  near(rowSums(f$pstate), rep(1, length(f$time)), 1e-9, "shares add up to 1")
  # by hand: product of (I + dA)
  s <- as.integer(f$states); P <- f$p0; hand <- t(sapply(f$time, function(t) { r <- d$entry < t & d$time >= t; H <- diag(k); for (a in seq_len(k)) for (b in seq_len(k)) if (a != b) { n <- sum(r & d$from == s[a]); x <- if (n > 0) sum(d$time == t & d$from == s[a] & d$to == s[b])/n else 0; H[a, b] <- x; H[a, a] <- H[a, a] - x }; P <<- drop(P %*% H); P }))
  near(hand, f$pstate, 1e-9, "product of matrices")
  step <- diff(pmin(c(0, pmax(0, f$time), horizon), horizon)); step <- pmax(0, c(pmin(pmax(f$time[1], 0), horizon), diff(pmin(c(pmax(0, f$time), horizon), horizon)))[seq_len(length(f$time) + 1)])
  area <- colSums(step*rbind(f$p0, f$pstate)); areas <- sapply(seq_len(k), function(j) drop(matrix(I[, , j], nrow = length(ids)) %*% step))
  keep <- unique(round(seq(1, length(f$time), length.out = most))); o <- order(s); col <- function(m) lapply(setNames(o, paste0("state_", s[o])), function(j) arr(m[keep, j]))
  list(states = arr(s[o]), n = length(ids), units = length(unique(by)), initial = arr(unname(f$p0[o])), initial_se = arr(sums(matrix(I[, 1, ], ncol = k))[o]), time = arr(f$time[keep]), share = col(f$pstate), se = col(se),
    at_risk = col(f$n.risk), horizon = horizon, mean_time = arr(area[o]), mean_time_se = arr(sums(areas)[o]))
}
limits <- function(d, types, at) lapply(setNames(types, types), function(type) { f <- survfit(Surv(entry, time, event) ~ 1, d, id = id, istate = state, conf.type = type); i <- findInterval(at, f$time); o <- order(as.integer(f$states))
  list(states = arr(as.integer(f$states)[o]), lower = matrix(f$lower, ncol = length(o))[i, o], upper = matrix(f$upper, ncol = length(o))[i, o]) })
m <- read("myeloid.csv"); g <- read("gammopathy.csv"); b <- read("bilirubin.csv"); d <- read("ties.csv"); at <- c(100, 365, 730, 1500)
write_expected(list(topic = "States over time", software = software("survival"),
  conventions = list(share = "Aalen-Johansen; at risk in a state is entry < t <= time", initial = "shares of those at risk at the first move", se = "infinitesimal jackknife, summed within subjects or within clusters of subjects; influences of the package survival", mean_time = "area under the share from 0 to the horizon; its error from the areas under the influences"),
  cases = list(
    case("myeloid", "myeloid.csv", "five states, ties, all begin in one", NULL, block(m, horizon = 1000)),
    case("myeloid_by_group", "myeloid.csv", "by treatment", list(group = "group"), lapply(list(group_0 = 0, group_1 = 1), function(i) block(m[m$group == i, ], horizon = 1000, most = 25))),
    case("myeloid_clusters", "myeloid.csv", "subjects in clusters of three", list(cluster = "id %/% 3"), block(m, m$id %/% 3, 1000, 25)),
    case("myeloid_limits", "myeloid.csv", "limits on five scales", list(times = at), limits(m, c("plain", "log", "log-log", "logit", "arcsin"), at)),
    case("gammopathy", "gammopathy.csv", "illness and death by age, late entry", NULL, block(g, horizon = 1100)),
    case("gammopathy_clusters", "gammopathy.csv", "late entry, subjects in clusters of four", list(cluster = "id %/% 4"), block(g, g$id %/% 4, 1100, 25)),
    case("bilirubin", "bilirubin.csv", "back and forth among four states; not all begin in one", NULL, block(b, horizon = 3650)),
    case("ties", "ties.csv", "illness and recovery, nearly all times tied, late entry", NULL, block(d, horizon = 7)),
    case("ties_clusters", "ties.csv", "the same, subjects in persons", list(cluster = "person"), block(d, d$person, 7)))))

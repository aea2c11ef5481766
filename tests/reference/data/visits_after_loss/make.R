# Shares from visits if those lost to follow-up were unlike those followed. The law is fitted by survreg (one end) or by direct maximisation (two ends, late
# entry); the shares are sums of integrals over what was lost on each day, by `integrate`; derivatives by numDeriv. Nothing here walks step by step.
source("../../r/records.R"); source("../../r/likelihood.R"); suppressMessages(library(survival))
v <- read.csv("../visits/visits.csv"); X <- cbind(1, v$group, v$grade); inf <- function(x) ifelse(is.na(x), Inf, x)
# every fourth row, unless it has the other end, is lost after three fifths of its time
i <- seq_len(nrow(v)) %% 4 == 0 & v$end != 2; v$left[i] <- pmax(v$entry[i] + 1, ceiling(.6*v$left[i])); v$right[i] <- NA; v$end[i] <- 0; v$lost <- as.integer(i)
T <- 91; Z <- 1:3; mix <- sapply(Z, function(z) mean(v$grade == z))
# hazards of the end asked about (1) and of the other (2); without another end b is empty
H <- function(q, x, u) -plnorm(u, sum(q[1:3]*x), exp(q[4]), lower.tail = FALSE, log.p = TRUE)
h <- function(q, x, u) exp(dlnorm(u, sum(q[1:3]*x), exp(q[4]), log = TRUE) + H(q, x, u))
other <- function(q, x, u) if (length(q) > 4) H(q[-(1:4)], x, u) else 0*u
int <- function(f, a, b) if (b > a) integrate(f, a, b, rel.tol = 1e-11, subdivisions = 2000)$value else 0
F1 <- function(q, x, t) if (length(q) > 4) int(function(u) h(q, x, u)*exp(-H(q, x, u) - other(q, x, u)), 0, t) else plnorm(t, sum(q[1:3]*x), exp(q[4]))
after <- function(q, x, c, k) { S <- exp(-H(q, x, c) - other(q, x, c)); if (is.infinite(k)) S else S*int(function(u) k*h(q, x, u)*exp(-k*(H(q, x, u) - H(q, x, c)) - other(q, x, u) + other(q, x, c)), c, T) }
# chance that a row is still without an end after day c
still <- function(d, q, c) with(d, ifelse(entry >= c & entry > 0, 0, ifelse(left >= c, +(right > c), ifelse(right <= c | is.infinite(right), 0,
  mapply(function(l, r, g, z) if (l < c & c < r & is.finite(r)) { p <- plnorm(c(l, c, r), sum(q[1:3]*c(1, g, z)), exp(q[4])); (p[3] - p[2])/(p[3] - p[1]) } else 0, left, right, group, grade)))))
run <- function(d, q, V, influence, cells, clusters) {
  rows <- function(g, z) which(d$group == g & (!cells | d$grade == z))
  days <- function(g, z) { r <- rows(g, z); sort(unique(d$left[r][d$lost[r] == 1 & d$left[r] < T])) }
  Y <- function(q, g, z) vapply(days(g, z), function(c) sum(still(d[rows(g, z), ], q, c)), 0)
  lambda <- function(q, g, z) { r <- rows(g, z); vapply(days(g, z), function(c) sum(d$lost[r] == 1 & d$left[r] == c) + 0, 0)/Y(q, g, z) }
  one <- function(q, l, g, z, k) { x <- c(1, g, z); c <- days(g, z); gone <- cumprod(c(1, 1 - l))[seq_along(l)]*l; whole <- F1(q, x, T)
    whole + sum(vapply(seq_along(c), function(m) gone[m]*(after(q, x, c[m], k) - whole + F1(q, x, c[m])), 0)) }
  codes <- if (cells) Z else 1
  # losses of all cells of a group end to end
  lam <- function(q, g) as.numeric(unlist(lapply(codes, function(z) lambda(q, g, z))))
  cut <- function(l, g, z) if (cells) l[rep(codes, sapply(codes, function(s) length(days(g, s)))) == z] else l
  share <- function(q, l, g, k) sum(sapply(Z, function(z) mix[z]*one(q, cut(l, g, z), g, z, k)))
  parts <- function(g, k) { l <- lam(q, g); est <- share(q, l, g, k)
    J <- jacobian(function(p) share(p, lam(p, g), g, k), q); s <- if (length(l)) as.vector(jacobian(function(p) share(q, p, g, k), l)) else numeric(0)
    y <- as.numeric(unlist(lapply(codes, function(z) Y(q, g, z))))
    P <- (sapply(Z, function(z) one(q, cut(l, g, z), g, z, k)) - est)[d$grade]/nrow(d)
    U <- P; at <- 0
    if (!is.null(clusters)) for (z in codes) { r <- rows(g, z); for (c in days(g, z)) { at <- at + 1; U[r] <- U[r] + s[at]*((d$lost[r] == 1 & d$left[r] == c) - l[at]*still(d[r, ], q, c))/y[at] } }
    list(est = est, J = J, P = P, U = U, loss = sum(s^2*l*(1 - l)/y)) }
  units <- if (is.null(clusters)) nrow(d) else length(unique(clusters)); small <- units/(units - 4); crit <- qt(.975, units - 4)
  se <- function(list, sign) { J <- Reduce(`+`, Map(function(a, s) s*a$J, list, sign)); P <- Reduce(`+`, Map(function(a, s) s*a$P, list, sign)); U <- Reduce(`+`, Map(function(a, s) s*a$U, list, sign))
    sqrt(small*(if (is.null(clusters)) J %*% V %*% t(J) + sum(P^2) + sum(sapply(list, `[[`, "loss")) else sum(rowsum(as.vector(influence %*% t(J)) + U, clusters)^2))) }
  told <- function(a) { e <- drop(se(list(a), 1)); list(share = a$est, se = e, limits = plogis(qlogis(a$est) + c(-1, 1)*crit*e/a$est/(1 - a$est))) }
  lapply(c(0, .25, 1, 3, Inf), function(k) { a <- parts(1, k); b <- parts(0, 1/k); A <- told(a); B <- told(b); e <- drop(se(list(a, b), c(1, -1))); r <- (A$se^2 + B$se^2 - e^2)/(2*A$se*B$se)
    away <- function(x, y) sqrt(x^2 + y^2 - 2*r*x*y); D <- a$est - b$est
    list(factor = k, group = A, against = B, difference = D, limits = c(D - away(a$est - A$limits[1], B$limits[2] - b$est), D + away(A$limits[2] - a$est, b$est - B$limits[1]))) }) }
# one end: returns in their intervals, other ends taken for ends of follow-up that are no loss
d <- v; d$entry <- 0; d$right <- ifelse(v$end == 1, inf(v$right), Inf)
fit <- survreg(Surv(ifelse(left == 0, NA, left), ifelse(is.finite(right), right, NA), type = "interval2") ~ group + grade, d, dist = "lognormal", control = list(rel.tolerance = 1e-14, maxiter = 200))
ONE <- run(d, unname(c(coef(fit), log(fit$scale))), fit$var, NULL, FALSE, NULL)
# two ends, each on the last day of its interval, late entry, several injuries a person, losses within grades
e <- v; e$left <- ifelse(v$end == 0, v$left, v$right); e$right <- ifelse(v$end == 0, Inf, v$right)
ml <- function(right) { s <- survreg(Surv(e$left, is.finite(right)) ~ X - 1, dist = "lognormal"); fit_ml(unname(c(coef(s), log(s$scale))), function(q) row_ll(q, X, e$left, right, e$entry, "lognormal")) }
r1 <- ml(ifelse(e$end == 1, e$right, Inf)); r2 <- ml(ifelse(e$end == 2, e$right, Inf))
TWO <- run(e, c(r1$par, r2$par), NULL, cbind(r1$influence, r2$influence), TRUE, v$person)
write_expected(list(topic = "Shares from visits after loss to follow-up", software = software("survival", "numDeriv"),
  conventions = list(lost = "every fourth row of the file, unless it has the other end, after three fifths of the time to its left end (its entry and a day at least)", share = "standardised over the grade, by day 91; group 1 with the factor, group 0 with its inverse", limits = "Student's t with units less 4; logit of the shares, recovered for the difference"),
  cases = list(
    case("intervals", "../visits/visits.csv", "survreg, log-normal", list(covariates = c("group", "grade")), ONE, rel = 1e-5),
    case("competing_in_persons", "../visits/visits.csv", "direct maximisation, log-normal both", list(covariates = c("group", "grade"), entry = "entry", clusters = "person", cells = "grade"), TWO, rel = 1e-5))))

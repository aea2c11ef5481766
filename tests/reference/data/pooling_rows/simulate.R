# SYNTHETIC rows of four sites, 12 to 60 injuries, whose rates of return and shares of rings differ; one injury a person.
set.seed(20261)
sizes <- c(north = 60, south = 40, east = 24, west = 12)
rate <- c(north = 1, south = .5, east = 1.6, west = .8); ring <- c(north = .5, south = .7, east = .35, west = .5)
d <- do.call(rbind, lapply(names(sizes), function(s) { n <- sizes[[s]]; group <- rbinom(n, 1, ring[[s]]); grade <- sample(2:3, n, TRUE)
  back <- ceiling(rweibull(n, 1.6, 95 / rate[[s]] * ifelse(grade == 3, 1.3, 1) * ifelse(group == 1, .8, 1))) + 2
  last <- ceiling(ifelse(runif(n) < .25, runif(n, 30, 150), runif(n, 200, 400))); data.frame(site = s, group = group, grade = grade, time = pmin(back, last), event = as.integer(back <= last)) }))
write.csv(d, "rows.csv", row.names = FALSE, quote = FALSE)

# SYNTHETIC fingers of climbers: one or two a person, alike within persons; return (1), giving up or operation (2), end of follow-up (0); late entry.
set.seed(11)
persons <- 90; k <- 1 + rbinom(persons, 1, .35); person <- rep(seq_len(persons), k); n <- length(person)
alike <- rgamma(persons, 3, 3)[person]; grade <- sample(1:3, n, TRUE); group <- rbinom(n, 1, .5)
back <- ceiling(70*(rexp(n)/(alike*exp(.3*group - .25*(grade - 2))))^.8); other <- ceiling(rexp(n, 1/(260 - 60*group))); end <- sample(60:240, n, TRUE)
time <- pmin(back, other, end); cause <- ifelse(time == back, 1, ifelse(time == other, 2, 0)); entry <- pmin(time - 1, rpois(n, 5) - 1)
write.csv(data.frame(person, grade, group, time, cause, entry), "fingers.csv", row.names = FALSE, quote = FALSE)

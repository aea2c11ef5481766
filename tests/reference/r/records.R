# Cases and files of reference figures, in base R; each make.R loads the packages that it
# needs itself and runs inside its own folder.

## ---- JSON with full double precision --------------------------------------
# Numbers: shortest of 15/16/17 significant digits that reads back exactly.
# NA -> null, NaN -> "NaN", +/-Inf -> "Infinity"/"-Infinity".
# Named list/vector -> object. Unnamed list/vector -> array, but an unnamed
# vector of length one is written as a scalar unless wrapped in arr().
.num <- function(v) {
  if (is.nan(v)) return("\"NaN\""); if (is.na(v)) return("null")
  if (is.infinite(v)) return(if (v > 0) "\"Infinity\"" else "\"-Infinity\"")
  if (v == 0) return("0")
  for (d in 15:17) { s <- formatC(v, digits = d, format = "g", width = -1); if (as.numeric(s) == v) break }
  trimws(s)
}
.str <- function(s) {
  s <- gsub("\\", "\\\\", s, fixed = TRUE); s <- gsub("\"", "\\\"", s, fixed = TRUE)
  s <- gsub("\n", "\\n", s, fixed = TRUE); paste0("\"", s, "\"")
}
arr <- function(x) structure(list(as.list(unname(x))), class = "arr_wrap")
to_json <- function(x, ind = 0) {
  pad <- strrep(" ", ind + 1); end <- strrep(" ", ind)
  if (inherits(x, "arr_wrap")) { y <- x[[1]]; if (!length(y)) return("[]")
    return(paste0("[", paste(vapply(y, to_json, "", ind = ind + 1), collapse = ","), "]")) }
  if (is.null(x)) return("null")
  if (is.data.frame(x)) x <- lapply(as.list(x), arr)
  if (is.matrix(x)) return(paste0("[", paste(apply(x, 1, function(r) to_json(arr(r))), collapse = ","), "]"))
  if (is.factor(x)) x <- as.character(x)
  if (is.list(x) || !is.null(names(x))) {
    nm <- names(x); x <- as.list(x)
    if (is.null(nm)) {
      if (!length(x)) return("[]")
      return(paste0("[\n", paste0(pad, vapply(x, to_json, "", ind = ind + 1), collapse = ",\n"), "\n", end, "]"))
    }
    if (!length(x)) return("{}")
    body <- vapply(seq_along(x), function(i) paste0(pad, .str(nm[i]), ": ", to_json(x[[i]], ind + 1)), "")
    return(paste0("{\n", paste(body, collapse = ",\n"), "\n", end, "}"))
  }
  one <- function(v) if (is.character(v)) { if (is.na(v)) "null" else .str(v) }
    else if (is.logical(v)) { if (is.na(v)) "null" else if (v) "true" else "false" } else .num(v)
  s <- vapply(seq_along(x), function(i) one(x[i]), "")
  if (length(s) == 1) s else paste0("[", paste(s, collapse = ","), "]")
}
software <- function(...) c(list(R = paste(R.version$major, R.version$minor, sep = ".")),
  sapply(c(...), function(p) as.character(packageVersion(p)), simplify = FALSE))
write_expected <- function(x, file = "expected.json") writeLines(to_json(x), file, useBytes = TRUE)

## ---- records ---------------------------------------------------------------
# one case of expected.json
case <- function(id, data, method, options = NULL, expected, published = NULL, rel = 1e-9, abs = 1e-12, note = NULL) {
  r <- list(id = id, data = if (length(data) > 1) arr(data) else data, method = method)
  if (!is.null(options)) r$options <- options
  r$tolerance <- list(rel = rel, abs = abs)
  r$expected <- expected
  if (!is.null(published)) r$published <- unname(published)
  if (!is.null(note)) r$note <- note
  r
}
# a published figure (string, as printed) beside the computed one; agrees = the
# computed value rounds to the printed one (within half a unit of its last digit)
pub <- function(source, what, printed, computed, how = "from memory") {
  dec <- if (grepl("[eE]", printed)) NA else if (grepl(".", printed, fixed = TRUE)) nchar(sub(".*\\.", "", printed)) else 0
  half <- if (is.na(dec)) abs(as.numeric(printed)) * 5e-3 else 0.5 * 10^-dec
  ok <- abs(as.numeric(printed) - computed) <= half * 1.02 + 1e-12
  list(source = source, quantity = what, printed = printed, computed = as.numeric(computed), agrees = unname(ok), how = how)
}
near <- function(a, b, tol = 1e-9, what = "") {
  a <- as.vector(unlist(a)); b <- as.vector(unlist(b))
  ok <- length(a) == length(b) && all(is.na(a) == is.na(b)) && all(is.infinite(a) == is.infinite(b))
  f <- is.finite(a) & is.finite(b)
  d <- if (ok && any(f)) max(abs(a[f] - b[f]) / pmax(1, abs(b[f]))) else 0
  if (!ok || d > tol) stop("self-check failed: ", what, " diff=", format(d), call. = FALSE)
  invisible(TRUE)
}
named <- function(v, n) { names(v) <- n; as.list(v) }

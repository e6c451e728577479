/**
 * The R script beside the tables: reads them with base R alone and makes the comparison again, from the values of plots to
 * means, errors, differences and letters; then says how far it is from the printed table.
 */
export const ANALYSIS_R = String.raw`# Makes the table comparison.csv again from observations.csv, with base R alone.
# Run in the folder of the tables:  Rscript analysis.R
# It ends with an error where a value differs by more than 1e-6 of its size.

observations <- read.csv("observations.csv")
printed <- read.csv("comparison.csv")

# columns of empty cells are read as NA, columns of names as text
blank <- function(x) is.na(x) | x == ""
used <- observations[blank(observations$excluded), ]
used$treatment <- factor(used$treatment)

transformed <- function(y, how) switch(how,
  "none" = y,
  "arcsine-square-root" = asin(sqrt(y / 100)) * 180 / pi,
  "log" = log10(y + 1))
back <- function(y, how) switch(how,
  "none" = y,
  "arcsine-square-root" = 100 * sin(pmin(pmax(y, 0), 90) * pi / 180)^2,
  "log" = 10^y - 1)

# letters: treatments, by falling mean, share one exactly when they do not differ (insert and absorb, Piepho 2004)
group_letters <- function(differs) {
  n <- nrow(differs)
  groups <- list(seq_len(n))
  for (i in seq_len(n)) for (j in seq_len(n)) if (i < j && differs[i, j]) {
    touched <- Filter(function(g) i %in% g && j %in% g, groups)
    kept <- Filter(function(g) !(i %in% g && j %in% g), groups)
    for (g in touched) for (half in list(setdiff(g, i), setdiff(g, j)))
      if (!any(vapply(kept, function(k) all(half %in% k), TRUE))) {
        kept <- Filter(function(k) !all(k %in% half), kept)
        kept <- c(kept, list(half))
      }
    groups <- kept
  }
  groups <- groups[order(vapply(groups, function(g) sum(2^-sort(g)), 0), decreasing = TRUE)]
  vapply(seq_len(n), function(i)
    paste(letters[seq_along(groups)][vapply(groups, function(g) i %in% g, TRUE)], collapse = ""), "")
}

# which treatments share a letter: two displays agree when these do
shares <- function(letters) outer(letters, letters, Vectorize(function(a, b)
  any(strsplit(a, "")[[1]] %in% strsplit(b, "")[[1]])))

worst <- 0
compare <- function(what, ours, theirs) {
  both <- !is.na(ours) & !is.na(theirs)
  if (any(is.na(ours) != is.na(theirs))) stop(what, ": one of the two has no value")
  if (any(both)) {
    off <- max(abs(ours[both] - theirs[both]) / pmax(1, abs(theirs[both])))
    worst <<- max(worst, off)
    if (off > 1e-6) stop(what, ": off by ", format(off))
  }
}

for (key in unique(paste(printed$rating_date, printed$class))) {
  table <- printed[paste(printed$rating_date, printed$class) == key, ]
  how <- table$transform[1]
  design <- table$design[1]
  alpha <- table$alpha[1]
  data <- used[paste(used$rating_date, used$class) == key, ]
  data <- droplevels(data)
  data$y <- transformed(data$value, how)
  ground <- switch(design,
    "randomized-complete-block" = "block",
    "latin-square" = c("row", "column"),
    character(0))
  for (name in ground) data[[name]] <- factor(data[[name]])
  fit <- lm(reformulate(c(ground, "treatment"), "y"), data,
    contrasts = sapply(c(ground, "treatment"), function(name) "contr.treatment", simplify = FALSE))
  variance <- anova(fit)
  df <- df.residual(fit)

  # least-squares means: blocks (rows, columns) weigh alike, whatever plots are missing
  grid <- expand.grid(lapply(data[c(ground, "treatment")], levels))
  rows <- model.matrix(delete.response(terms(fit)), grid, contrasts.arg = fit$contrasts)
  names <- levels(data$treatment)
  weights <- t(vapply(names, function(name) colMeans(rows[grid$treatment == name, , drop = FALSE]), rows[1, ]))
  means <- drop(weights %*% coef(fit))
  covariance <- weights %*% vcov(fit) %*% t(weights)
  errors <- sqrt(diag(covariance))
  of_difference <- sqrt(outer(diag(covariance), diag(covariance), "+") - 2 * covariance)

  difference <- abs(outer(means, means, "-"))
  lsd <- qt(1 - alpha / 2, df) * of_difference
  hsd <- qtukey(1 - alpha, length(means), df) * of_difference / sqrt(2)
  falling <- order(-means)
  significant <- variance["treatment", "Pr(>F)"] < alpha
  by_lsd <- group_letters((difference > lsd)[falling, falling])[order(falling)]
  by_hsd <- group_letters((difference > hsd)[falling, falling])[order(falling)]
  pairs <- of_difference[lower.tri(of_difference)]
  alike <- diff(range(pairs)) < 1e-9 * max(pairs)

  ours <- data.frame(
    treatment = names,
    n = as.vector(table(data$treatment)),
    mean = back(means, how),
    standard_error = if (how == "none") errors else NA,
    low = back(means - qt(1 - alpha / 2, df) * errors, how),
    high = back(means + qt(1 - alpha / 2, df) * errors, how),
    letters_lsd = if (significant) by_lsd else "",
    letters_hsd = by_hsd)
  cat("\n", table$class[1], " on ", table$rating_date[1], " (", design, ", transform ", how, ")\n", sep = "")
  print(variance)
  print(ours, row.names = FALSE, digits = 4)
  cat("LSD", if (alike) format(lsd[2, 1], digits = 5) else "differs by pair",
    " HSD", if (alike) format(hsd[2, 1], digits = 5) else "differs by pair", "\n")

  table <- table[match(names, as.character(table$treatment)), ]
  for (column in c("n", "mean", "standard_error", "low", "high"))
    compare(paste(key, column), ours[[column]], table[[column]])
  compare(paste(key, "F"), variance["treatment", "F value"], table$f[1])
  compare(paste(key, "p"), variance["treatment", "Pr(>F)"], table$p[1])
  compare(paste(key, "mean square of error"), variance["Residuals", "Mean Sq"], table$mean_square_error[1])
  if (alike) {
    compare(paste(key, "LSD"), lsd[2, 1], table$least_significant_difference[1])
    compare(paste(key, "HSD"), hsd[2, 1], table$honestly_significant_difference[1])
  }
  for (column in c("letters_lsd", "letters_hsd")) {
    theirs <- table[[column]]
    theirs[is.na(theirs)] <- ""
    if (any(shares(ours[[column]]) != shares(theirs))) stop(key, ": ", column, " differ")
  }
}
cat("\nEvery value of comparison.csv was made again; the largest difference is", format(worst, digits = 2), "of its size.\n")
`;

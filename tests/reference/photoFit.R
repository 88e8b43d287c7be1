# Least-squares fits of control points by R: lm() (LINPACK's QR) for the similarity and the affine fit, nls() (Gauss-
# Newton on R's own QR, analytic gradient) for the projective one. Reads "case,kind,used,u,v,x,y", u and v in thousands
# of pixels; fits the points used and writes "case,px,py" for where the fit puts every point, in order.
d <- read.csv(file("stdin"))
f <- deriv(~ isx * (a * u + b * v + c) / (g * u + h * v + 1) + (1 - isx) * (d * u + e * v + f) / (g * u + h * v + 1),
           c("a", "b", "c", "d", "e", "f", "g", "h"),
           function(a, b, c, d, e, f, g, h, u, v, isx) NULL)
put <- function(kind, q) {
  n <- nrow(q); s <- q[q$used == 1, ]; k <- nrow(s)
  if (kind == "affine") return(cbind(predict(lm(x ~ u + v, s), q), predict(lm(y ~ u + v, s), q)))
  if (kind == "similarity") {
    m <- function(p) cbind(c(p$u, -p$v), c(p$v, p$u), rep(1:0, each = nrow(p)), rep(0:1, each = nrow(p)))
    return(matrix(m(q) %*% qr.coef(qr(m(s)), c(s$x, s$y)), ncol = 2))
  }
  ax <- coef(lm(x ~ u + v, s)); ay <- coef(lm(y ~ u + v, s))
  both <- function(p) data.frame(u = rep(p$u, 2), v = rep(p$v, 2), isx = rep(1:0, each = nrow(p)))
  fit <- nls(z ~ f(a, b, c, d, e, f, g, h, u, v, isx), cbind(z = c(s$x, s$y), both(s)),
             start = list(a = ax[[2]], b = ax[[3]], c = ax[[1]], d = ay[[2]], e = ay[[3]], f = ay[[1]], g = 0.001, h = 0.001),
             control = nls.control(maxiter = 60, tol = 1e-14, minFactor = 1e-12, warnOnly = TRUE))
  # nls() stops where the sum of squares no longer falls, some 1e-8 short: full Gauss-Newton steps go the rest.
  at <- function(h, p) do.call(f, c(as.list(h), as.list(both(p))))
  h <- coef(fit)
  for (i in 1:60) { now <- at(h, s); h <- h + qr.coef(qr(attr(now, "gradient"), tol = 1e-14), c(s$x, s$y) - now) }
  matrix(at(h, q), ncol = 2)
}
for (case in unique(d$case)) {
  q <- d[d$case == case, ]
  p <- suppressWarnings(put(q$kind[1], q))
  cat(sprintf("%s,%.17g,%.17g\n", case, p[, 1], p[, 2]), sep = "")
}

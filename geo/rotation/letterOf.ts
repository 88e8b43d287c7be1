/** A for the first, Z for the 26th, AA after it. */
export function letterOf(n: number): string {
  const last = String.fromCharCode(65 + (n % 26))
  return n < 26 ? last : letterOf(Math.floor(n / 26) - 1) + last
}

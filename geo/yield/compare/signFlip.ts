/** Up to so many pairs every pattern of signs is gone through; beyond, so many patterns are drawn. */
const ALL_UP_TO = 12
const DRAWS = 9999

/**
 * Chance, if neither of each pair were better, of a mean difference as far from 0 as the one found: the differences'
 * signs are flipped in every way, or in 9,999 drawn ways and the one found (Fisher 1935, The Design of Experiments, 21;
 * Phipson & Smyth 2010, Stat. Appl. Genet. Mol. Biol. 9:39 for counting the one found).
 */
export function signFlipP(differences: readonly number[], random: () => number): number {
  const n = differences.length
  const found = Math.abs(differences.reduce((sum, d) => sum + d, 0)) * (1 - 1e-12)
  if (n <= ALL_UP_TO) {
    let asFar = 0
    for (let pattern = 0; pattern < 2 ** n; pattern += 1) {
      let sum = 0
      for (let k = 0; k < n; k += 1) sum += (pattern >> k) & 1 ? differences[k]! : -differences[k]!
      if (Math.abs(sum) >= found) asFar += 1
    }
    return asFar / 2 ** n
  }
  let asFar = 1
  for (let draw = 0; draw < DRAWS; draw += 1) {
    let sum = 0
    for (let k = 0; k < n; k += 1) sum += random() < 0.5 ? differences[k]! : -differences[k]!
    if (Math.abs(sum) >= found) asFar += 1
  }
  return asFar / (DRAWS + 1)
}

/** Pieces cut from rolls. */
export interface Packing {
  /** The cuts of each roll, longest first. */
  readonly rolls: readonly (readonly number[])[]
  /** What is left of all rolls. */
  readonly wasteM: number
  /** True where no packing takes fewer rolls. */
  readonly best: boolean
}

/** Places looked at before the search for something better is given up. */
const MOST_STEPS = 50_000
/** Cuts are told apart by no less than this. */
const EPSILON_M = 1e-9

/**
 * Packs pieces (metres) into as few rolls of one length as it finds: first-fit-decreasing, then branch and bound from
 * there (Martello & Toth 1990, Knapsack Problems, ch. 8: lower bound L1 and the dominance of a piece that fills a roll).
 * A piece longer than a roll takes whole rolls and leaves its rest to be joined on. Never more rolls than
 * first-fit-decreasing. Throws for a roll or a piece that is not above zero.
 */
export function packRolls(piecesM: readonly number[], rollM: number): Packing {
  for (const length of [rollM, ...piecesM]) if (!(length > 0)) throw new RangeError(`${length} m can't be cut`)
  const whole = piecesM.flatMap((piece) => Array<number>(wholeRolls(piece, rollM)).fill(rollM))
  const rest = piecesM
    .map((piece) => piece - wholeRolls(piece, rollM) * rollM)
    .filter((piece) => piece > EPSILON_M)
    .sort((a, b) => b - a)
  const least = Math.ceil(sum(rest) / rollM - EPSILON_M)
  const first = firstFitDecreasing(rest, rollM)
  const found = first.length > least ? search(rest, rollM, first, least) : { rolls: first, best: true }
  const rolls = [...whole.map((length) => [length]), ...found.rolls]
  return { rolls, wasteM: rolls.length * rollM - sum(rolls.flat()), best: found.best }
}

/** Each piece into the first roll that has room for it; pieces longest first. */
export function firstFitDecreasing(sorted: readonly number[], rollM: number): number[][] {
  const rolls: { cuts: number[]; left: number }[] = []
  for (const piece of sorted) {
    const fits = rolls.find(({ left }) => left >= piece - EPSILON_M)
    if (fits) {
      fits.cuts.push(piece)
      fits.left -= piece
    } else rolls.push({ cuts: [piece], left: rollM - piece })
  }
  return rolls.map(({ cuts }) => cuts)
}

function search(sorted: readonly number[], rollM: number, first: number[][], least: number) {
  let best = first
  let steps = 0
  const cuts: number[][] = []
  const left: number[] = []
  const restM = sorted.map((_, n) => sum(sorted.slice(n)))
  const place = (n: number): void => {
    if (best.length === least || steps++ > MOST_STEPS) return
    if (n === sorted.length) {
      if (cuts.length < best.length) best = cuts.map((roll) => [...roll])
      return
    }
    const free = sum(left)
    if (cuts.length + Math.ceil((restM[n]! - free) / rollM - EPSILON_M) >= best.length) return
    const piece = sorted[n]!
    const exact = left.findIndex((room) => Math.abs(room - piece) <= EPSILON_M)
    const tried: number[] = []
    for (let roll = 0; roll < cuts.length; roll++) {
      const room = left[roll]!
      if (exact >= 0 && roll !== exact) continue
      if (room < piece - EPSILON_M || tried.some((other) => Math.abs(other - room) <= EPSILON_M)) continue
      tried.push(room)
      put(roll, piece)
      place(n + 1)
      take(roll, piece)
    }
    if (exact >= 0 || cuts.length + 1 >= best.length) return
    cuts.push([])
    left.push(rollM)
    put(cuts.length - 1, piece)
    place(n + 1)
    cuts.pop()
    left.pop()
  }
  const put = (roll: number, piece: number) => {
    cuts[roll]!.push(piece)
    left[roll]! -= piece
  }
  const take = (roll: number, piece: number) => {
    cuts[roll]!.pop()
    left[roll]! += piece
  }
  place(0)
  return { rolls: best, best: steps <= MOST_STEPS || best.length === least }
}

const wholeRolls = (piece: number, rollM: number) =>
  piece > rollM + EPSILON_M ? Math.floor(piece / rollM + EPSILON_M) : 0
const sum = (of: readonly number[]) => of.reduce((total, one) => total + one, 0)

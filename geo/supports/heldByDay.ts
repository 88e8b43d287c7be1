/** A climbing planting from one day until another (null: beyond the season), with how much of it is held meanwhile. */
export interface HeldPiece {
  readonly planting: string
  readonly crop: string
  readonly cropName: string
  /** Days from setting out until the crop needs its support, as its record has them. */
  readonly afterDays: number | null
  readonly bed: string
  readonly field: string
  readonly setOut: string
  readonly from: string
  readonly until: string | null
  readonly lengthM: number
  readonly heldM: number
}

/** Climbing row on a day, and held row; both stay so until the next day listed. */
export interface HeldOn {
  readonly on: string
  readonly climbingM: number
  readonly heldM: number
}

/** Climbing and held metres on each day that either changes; nothing is listed before the first piece begins. */
export function heldByDay(pieces: readonly HeldPiece[]): HeldOn[] {
  const days = [...new Set(pieces.flatMap(({ from, until }) => (until === null ? [from] : [from, until])))].sort()
  return days.map((on) => {
    const standing = pieces.filter(({ from, until }) => from <= on && (until === null || until > on))
    const sum = (of: 'lengthM' | 'heldM') => standing.reduce((total, piece) => total + piece[of], 0)
    return { on, climbingM: sum('lengthM'), heldM: sum('heldM') }
  })
}

/** Two numbers of a sensor that become black and white. */
export interface Stretch {
  readonly black: number
  readonly white: number
}

/** The value below which a share (0–1) of sorted values lies, between neighbours in proportion (R's type 7, numpy's "linear"). */
const quantile = (sorted: Float64Array, share: number): number => {
  const at = share * (sorted.length - 1)
  const below = Math.floor(at)
  const above = Math.min(below + 1, sorted.length - 1)
  return sorted[below]! + (at - below) * (sorted[above]! - sorted[below]!)
}

/**
 * The stretch that a picture of more than 8 bits is shown with: its 2nd percentile black and its 98th white, over all
 * colour bands together, so that hues stay as they were taken. A picture of one value comes out mid grey.
 */
export const stretchOf = (values: readonly number[]): Stretch => {
  const sorted = Float64Array.from(values).sort()
  if (sorted.length === 0) return { black: 0, white: 1 }
  const black = quantile(sorted, 0.02)
  const white = quantile(sorted, 0.98)
  return white > black ? { black, white } : { black: black - 1, white: black + 1 }
}

/** A sensor's number as a level 0–255 under a stretch. */
export const levelOf = ({ black, white }: Stretch, value: number): number =>
  Math.min(255, Math.max(0, (255 * (value - black)) / (white - black)))

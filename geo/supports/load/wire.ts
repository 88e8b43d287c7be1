/** Standard gravity, m/s² (CGPM 1901). */
export const GRAVITY = 9.80665

/** An evenly loaded wire between two supports of one height. Forces in newtons, lengths in metres. */
export interface WireLoad {
  readonly spanM: number
  readonly loadNPerM: number
}

/** Sag of the parabola that an evenly loaded wire hangs in: d = wL²/8H. */
export const parabolaSagM = ({ spanM, loadNPerM }: WireLoad, horizontalN: number) =>
  (loadNPerM * spanM ** 2) / (8 * horizontalN)

/** Sag of the catenary: d = (H/w)(cosh(wL/2H) − 1). */
export function catenarySagM({ spanM, loadNPerM }: WireLoad, horizontalN: number): number {
  const c = horizontalN / loadNPerM
  return c * (Math.cosh(spanM / (2 * c)) - 1)
}

/** Greatest tension of the catenary, at its supports: H·cosh(wL/2H). */
export const catenaryTensionN = ({ spanM, loadNPerM }: WireLoad, horizontalN: number) =>
  horizontalN * Math.cosh((loadNPerM * spanM) / (2 * horizontalN))

/** Horizontal pull in a cable longer than its span: solves 2c·sinh(L/2c) = S for c = H/w (bisection to 1e-12 of c). */
export function catenaryOfLengthN({ spanM, loadNPerM }: WireLoad, cableM: number): number {
  if (!(cableM > spanM)) throw new RangeError(`a cable of ${cableM} m does not hang over ${spanM} m`)
  const excess = (c: number) => 2 * c * Math.sinh(spanM / (2 * c)) - cableM
  let [low, high] = [spanM / 1400, spanM]
  while (excess(high) > 0) high *= 2
  while (high - low > 1e-12 * high) {
    const middle = (low + high) / 2
    if (excess(middle) > 0) low = middle
    else high = middle
  }
  return ((low + high) / 2) * loadNPerM
}

/** A wire as it is bought, and how it was strained before anything hung on it. */
export interface Wire {
  readonly areaM2: number
  readonly modulusPa: number
  readonly initialTensionN: number
}

/** Cross-section of a round wire, m². */
export const wireAreaM2 = (diameterM: number) => (Math.PI * diameterM ** 2) / 4

/**
 * Horizontal pull H in a wire strained straight to T₀ and then loaded: what it is longer along its sag it must have
 * stretched, H − T₀ = EA·w²L²/24H² (elastic parabola of small sag; Irvine 1981, Cable Structures, ch. 2; from memory).
 * In a run of equal spans each behaves as one of them.
 */
export function loadedPullN({ spanM, loadNPerM }: WireLoad, { areaM2, modulusPa, initialTensionN }: Wire): number {
  const stretch = (areaM2 * modulusPa * (loadNPerM * spanM) ** 2) / 24
  let pull = Math.max(initialTensionN, Math.cbrt(stretch))
  for (let n = 0; n < 100; n++) {
    const step = (pull ** 3 - initialTensionN * pull ** 2 - stretch) / (3 * pull ** 2 - 2 * initialTensionN * pull)
    pull -= step
    if (Math.abs(step) <= 1e-12 * pull) break
  }
  return pull
}

/** Greatest tension of the parabola, at its supports: √(H² + (wL/2)²). */
export const parabolaTensionN = ({ spanM, loadNPerM }: WireLoad, horizontalN: number) =>
  Math.hypot(horizontalN, (loadNPerM * spanM) / 2)

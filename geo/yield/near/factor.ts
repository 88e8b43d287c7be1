/** What may go with yield: a value from 0 (away, none) to 1 (at it, all) for each plot. */
export interface Factor {
  readonly id: string
  readonly kind:
    | 'canopy'
    | 'walnut'
    | 'shade'
    | 'field edge'
    | 'fence'
    | 'support'
    | 'dressing'
    | 'family before'
    | 'seen'
  /** A system's, material's or observation's own name. */
  readonly name: string | null
  /** How far it is looked for, in metres: at it the value is 1, from here on 0. Null for what is or is not. */
  readonly reachM: number | null
  readonly values: readonly number[]
  /** Plots that it can be told of, where not all; the others keep their own level. */
  readonly among: readonly boolean[] | null
}

/** How many plots lie in the upper and in the lower half of a factor's values. */
export function sides({ values, among }: Factor): { with: number; without: number } {
  const own = among ? values.filter((_, k) => among[k]) : values
  const least = own.reduce((m, v) => Math.min(m, v), Number.POSITIVE_INFINITY)
  const most = own.reduce((m, v) => Math.max(m, v), Number.NEGATIVE_INFINITY)
  if (!(most > least)) return { with: 0, without: own.length }
  const near = own.filter((v) => v >= (least + most) / 2).length
  return { with: near, without: own.length - near }
}

import type { FoundLayer } from './found.ts'
import { isTold } from './partLayers.ts'

/** A column of a layer, as it is shown to a person who says what is what. */
export interface Column {
  readonly name: string
  /** How many things have a value in it. */
  readonly filled: number
  /** The first different values, as text. */
  readonly samples: readonly string[]
}

const SAMPLES = 4

/** Every column of a layer, in the order in which the file has them. */
export function columnsOf({ features }: FoundLayer): Column[] {
  const columns = new Map<string, { filled: number; samples: Set<string> }>()
  for (const { values } of features)
    for (const [name, value] of Object.entries(values)) {
      let column = columns.get(name)
      if (!column) {
        column = { filled: 0, samples: new Set() }
        columns.set(name, column)
      }
      if (!isTold(value)) continue
      column.filled += 1
      if (column.samples.size < SAMPLES) column.samples.add(valueText(value).slice(0, 60))
    }
  return [...columns].map(([name, { filled, samples }]) => ({ name, filled, samples: [...samples] }))
}

export function valueText(value: unknown): string {
  return typeof value === 'string' ? value : typeof value === 'object' ? JSON.stringify(value) : String(value)
}

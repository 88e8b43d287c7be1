import type { Thing } from '../../../map/farmMap.ts'
import { type FormKind, KIND_WORD } from '../formFields.ts'

/** How many of what: "3 beds, 1 tree". */
export function countWords(things: readonly Thing[]): string {
  const counts = new Map<string, number>()
  for (const { kind } of things) counts.set(kind, (counts.get(kind) ?? 0) + 1)
  return [...counts]
    .map(([kind, count]) => `${count} ${count === 1 ? (KIND_WORD[kind as FormKind] ?? kind) : kind}`)
    .join(', ')
}

/** A side as the compass tells it: where a direction in the plane points. */
export function compassOf([east, north]: readonly [number, number]): string {
  const words = ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west']
  const deg = ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360
  return words[Math.round(deg / 45) % 8]!
}

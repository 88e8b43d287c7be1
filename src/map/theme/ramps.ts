import type { Ramp } from '../farmMap.ts'

export type RampStop = readonly [value: number, colour: string]

/**
 * Cividis by places from 0 to 1, from the 256-entry table of Nuñez, Anderton & Renslow 2018 (PLOS ONE 13(7) e0199239)
 * as matplotlib has it; between these places straight lines in RGB stay within 3/255 of the entries tested.
 */
const CIVIDIS: readonly RampStop[] = [
  [0, '#00224e'],
  [20 / 255, '#003070'],
  [1 / 9, '#123570'],
  [32 / 255, '#1a386f'],
  [2 / 9, '#3b496c'],
  [3 / 9, '#575d6d'],
  [4 / 9, '#707173'],
  [5 / 9, '#8a8678'],
  [6 / 9, '#a59c74'],
  [7 / 9, '#c3b369'],
  [8 / 9, '#e1cc55'],
  [240 / 255, '#f0d846'],
  [251 / 255, '#fde334'],
  [1, '#fee838'],
]

/** ColorBrewer's RdYlBu in eleven classes (Brewer & Harrower, colorbrewer2.org). */
const RDYLBU = [
  '#a50026',
  '#d73027',
  '#f46d43',
  '#fdae61',
  '#fee090',
  '#ffffbf',
  '#e0f3f8',
  '#abd9e9',
  '#74add1',
  '#4575b4',
  '#313695',
] as const

/** Colours of a ramp at rising values, for the map and its legend alike; straight lines in RGB between, ends held beyond. */
export function rampStops(ramp: Ramp): readonly RampStop[] {
  if (ramp.of === 'par') return RDYLBU.map((colour, i) => [0.5 + i / 10, colour])
  const { least = 0, most } = ramp
  if (!(most > least && Number.isFinite(most - least))) throw new Error(`no ramp from ${least} up to ${most}`)
  return CIVIDIS.map(([place, colour]) => [least + place * (most - least), colour])
}

const channels = (hex: string): number[] => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16))

/** The ramp's colour at a value, as red, green and blue from 0 to 255. */
export function rampColour(ramp: Ramp, value: number): readonly [red: number, green: number, blue: number] {
  const stops = rampStops(ramp)
  const above = stops.findIndex(([at]) => at >= value)
  const [highAt, high] = stops[above < 0 ? stops.length - 1 : above]!
  const [lowAt, low] = stops[above < 0 ? stops.length - 1 : Math.max(0, above - 1)]!
  const share = highAt === lowAt ? 0 : (value - lowAt) / (highAt - lowAt)
  const to = channels(high)
  const [r, g, b] = channels(low).map((from, i) => from + share * (to[i]! - from))
  return [r!, g!, b!]
}

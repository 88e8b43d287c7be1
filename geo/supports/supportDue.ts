import type { HeldPiece } from './heldByDay.ts'

/** Days from setting out until the plants reach some 30 cm and fall over, by words of the crop's name (assumed, from memory). */
const ASSUMED: readonly (readonly [RegExp, number])[] = [
  [/\b(pea|peas|sweet ?pea)\b/i, 14],
  [/bean/i, 14],
  [/tomato/i, 21],
  [/cucumber|gherkin|melon|squash|gourd|pumpkin/i, 21],
  [/hop|grape|kiwi/i, 30],
]
const ELSE = 21

/** Days from setting out until a crop needs its support: as its record says, else assumed. */
export function daysToSupport(crop: { readonly cropName: string; readonly afterDays: number | null }): {
  readonly days: number
  readonly assumed: boolean
} {
  if (crop.afterDays !== null) return { days: crop.afterDays, assumed: false }
  return { days: ASSUMED.find(([words]) => words.test(crop.cropName))?.[1] ?? ELSE, assumed: true }
}

/** When a planting needs its support, and when it had it along all but a twentieth of its row. */
export interface SupportDue {
  readonly planting: string
  readonly crop: string
  readonly cropName: string
  readonly bed: string
  readonly field: string
  readonly setOut: string
  readonly neededOn: string
  readonly heldFrom: string | null
  /** Days that it stood unheld though it needed holding, up to the day looked at; 0 where it was in time. */
  readonly lateDays: number
  readonly lengthM: number
}

const ALL_BUT = 0.95

/** Of each planting, the day on which it needs its support against the day on which it had it, as seen on a day. */
export function supportsDue(pieces: readonly HeldPiece[], on: string): SupportDue[] {
  const byPlanting = new Map<string, HeldPiece[]>()
  for (const piece of pieces) {
    const list = byPlanting.get(piece.planting)
    if (list) list.push(piece)
    else byPlanting.set(piece.planting, [piece])
  }
  return [...byPlanting.values()].map((list) => {
    const first = list[0]!
    const neededOn = addDays(first.setOut, daysToSupport(first).days)
    const held = list.find(({ heldM, lengthM }) => heldM >= ALL_BUT * lengthM)
    const heldFrom = held?.from ?? null
    const cleared = list.at(-1)!.until
    const until = [heldFrom ?? on, on, ...(cleared === null ? [] : [cleared])].sort()[0]!
    return {
      planting: first.planting,
      crop: first.crop,
      cropName: first.cropName,
      bed: first.bed,
      field: first.field,
      setOut: first.setOut,
      neededOn,
      heldFrom,
      lateDays: Math.max(0, daysBetween(neededOn, until)),
      lengthM: first.lengthM,
    }
  })
}

const DAY_MS = 86_400_000
const msOf = (day: string) => Date.parse(`${day}T00:00:00Z`)
const addDays = (day: string, days: number) => new Date(msOf(day) + days * DAY_MS).toISOString().slice(0, 10)
const daysBetween = (from: string, to: string) => Math.round((msOf(to) - msOf(from)) / DAY_MS)

import type { Point } from 'geojson'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { KG_PER_POUND, METRES_PER_FOOT, type Units } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import type { Noting } from '../state/noting.ts'
import type { Edits } from '../state/steps.ts'
import type { PictureTold } from './PictureEntry.tsx'

/** What is told so far of a note. */
export interface NoteTold {
  readonly on: string
  readonly bed: string | null
  readonly at: LonLat | null
  readonly what: string | null
  readonly severity: number | null
  readonly amount: string
  readonly amountIn: 'over the area' | 'in all'
  readonly rawManure: boolean | null
  readonly note: string
  readonly picture: PictureTold
}

export type NoteFaults = Readonly<Partial<Record<'place' | 'what' | 'amount' | 'other', string>>>

export function firstTold({ of, bed, at, correcting: was }: Noting, on: string): NoteTold {
  const text = (field: string) => (typeof was?.[field] === 'string' ? (was[field] as string) : null)
  const kgPerM2 = typeof was?.kg_per_m2 === 'number' ? was.kg_per_m2 : null
  const shown =
    kgPerM2 === null ? null : units.value === 'us' ? (kgPerM2 / KG_PER_POUND) * METRES_PER_FOOT ** 2 : kgPerM2
  const point = was?.geom as Point | undefined
  return {
    on: text('on') ?? on,
    bed: text('bed') ?? bed,
    at: point ? (point.coordinates as unknown as LonLat) : at,
    what: text(of === 'dressings' ? 'material' : 'kind'),
    severity: typeof was?.severity === 'number' ? was.severity : null,
    amount: shown === null ? '' : String(Number(shown.toPrecision(12))),
    amountIn: 'over the area',
    rawManure: typeof was?.raw_manure === 'boolean' ? was.raw_manure : null,
    note: text('note') ?? '',
    picture: text('photo') === null ? null : { file: text('photo')! },
  }
}

/** The amount in kg/m²: null where none is told, else why it can't be reckoned. */
export function amountOf(
  { amount, amountIn }: Pick<NoteTold, 'amount' | 'amountIn'>,
  areaM2: number | null,
  as: Units,
): number | null | { readonly reason: string } {
  const typed = amount.trim().replace(',', '.')
  if (typed === '') return null
  if (!/^\d+(\.\d+)?$/.test(typed)) return { reason: 'Is not a number.' }
  const value = Number(typed)
  if (amountIn === 'over the area') return as === 'us' ? (value * KG_PER_POUND) / METRES_PER_FOOT ** 2 : value
  if (areaM2 === null || areaM2 <= 0) return { reason: 'Say which bed first: its area is not known.' }
  return (as === 'us' ? value * KG_PER_POUND : value) / areaM2
}

/** The record's fields as told, or what is missing, each at its place. */
export function readNote(
  of: Noting['of'],
  told: NoteTold,
  areaM2: number | null,
): { readonly fields: Readonly<Record<string, unknown>> } | { readonly faults: NoteFaults } {
  const what = told.what?.trim() || null
  const note = told.note.trim() || null
  const amount = of === 'dressings' ? amountOf(told, areaM2, units.value) : null
  const place = of === 'dressings' ? told.bed : told.at
  const faults: NoteFaults = {
    ...(place === null ? { place: 'Say where: take a bed, or tap the map.' } : {}),
    ...(what === null ? { what: 'Say what.' } : {}),
    ...(amount !== null && typeof amount === 'object' ? { amount: amount.reason } : {}),
  }
  if (Object.keys(faults).length > 0) return { faults }
  const { on, severity, rawManure, at, bed } = told
  return {
    fields:
      of === 'dressings'
        ? { on, bed, material: what, kg_per_m2: amount, raw_manure: rawManure, note }
        : { on, kind: what, severity, note, geom: { type: 'Point', coordinates: [at![0], at![1]] } },
  }
}

/** The step that keeps a note, or puts one right. */
export function noteEdits(
  { of, correcting }: Noting,
  fields: Readonly<Record<string, unknown>>,
): { readonly id: string; readonly label: string; readonly edits: Edits } {
  const what = String(of === 'dressings' ? fields.material : fields.kind)
  if (!correcting) {
    const id = newId()
    return { id, label: `Note ${what}`, edits: [{ do: 'add', kind: of, record: { id, ...fields, extra: {} } }] }
  }
  const same = (field: string) => JSON.stringify(fields[field]) === JSON.stringify(correcting[field])
  const to = Object.fromEntries(Object.entries(fields).filter(([field]) => !same(field)))
  return { id: correcting.id, label: `Put right: ${what}`, edits: [{ do: 'change', kind: of, id: correcting.id, to }] }
}

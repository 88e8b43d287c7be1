import { plainName } from './matchName.ts'
import type { FarmNames, NotebookPlanting, Ways } from './notebook.ts'

/** What a line tells of its place, names already matched; null: not told. */
export interface ToldPlace {
  readonly on: string
  readonly planting: string | null
  readonly crop: string | null
  readonly variety: string | null
  readonly bed: string | null
  readonly row: string | null
  readonly lon: number | null
  readonly lat: number | null
}

/** Where a line's pick belongs, and which part of it: the parts of a line sum to 1. */
export interface LinePlace {
  readonly planting: string | null
  readonly bed: string | null
  readonly lon: number | null
  readonly lat: number | null
  readonly crop: string | null
  readonly part: number
}

const NOWHERE = { planting: null, bed: null, lon: null, lat: null, crop: null, part: 1 }

/** The places that a line means, or why none. A planting still counts on the day that it was cleared. */
export function placeOfLine(
  told: ToldPlace,
  farm: FarmNames,
  ways: Pick<Ways, 'several' | 'absent'>,
): readonly LinePlace[] | { readonly reason: string } {
  if (told.planting !== null) {
    const planting = farm.plantings.find(({ id }) => id === told.planting)
    if (!planting) return { reason: `no planting has the id “${told.planting}”` }
    return [{ ...NOWHERE, planting: planting.id, crop: planting.crop }]
  }
  if (told.lon !== null && told.lat !== null) return [{ ...NOWHERE, lon: told.lon, lat: told.lat, crop: told.crop }]
  if (told.lon !== null || told.lat !== null) return { reason: 'tells only one of longitude and latitude' }
  if (told.crop === null && told.variety === null && told.row === null) {
    if (told.bed === null) return { reason: 'tells neither a crop nor a place' }
    return [{ ...NOWHERE, bed: told.bed }]
  }
  const fitting = farm.plantings.filter((planting) => fits(planting, told))
  if (fitting.length === 0) {
    if (told.bed !== null && ways.absent === 'bed') return [{ ...NOWHERE, bed: told.bed, crop: told.crop }]
    return {
      reason: `nothing of that kind is recorded as standing ${told.bed === null ? 'on the farm' : 'in that bed'} on ${told.on}`,
    }
  }
  if (fitting.length > 1 && ways.several === 'leave')
    return { reason: `${fitting.length} plantings may be meant on ${told.on}: tell the bed, the row or the variety` }
  return divided(fitting)
}

function fits(planting: NotebookPlanting, told: ToldPlace): boolean {
  const row = told.row === null ? null : plainName(told.row)
  return (
    (told.bed === null || planting.bed === told.bed) &&
    (told.crop === null || planting.crop === told.crop) &&
    (told.variety === null || planting.variety === told.variety) &&
    (row === null || plainName(planting.row ?? '') === row || plainName(planting.side ?? '') === row) &&
    planting.setOut <= told.on &&
    (planting.cleared === null || planting.cleared >= told.on)
  )
}

/** Parts by the lengths of the stretches. */
function divided(plantings: readonly NotebookPlanting[]): readonly LinePlace[] {
  const total = plantings.reduce((sum, { lengthM }) => sum + lengthM, 0)
  return plantings.map(({ id, crop, lengthM }) => ({
    ...NOWHERE,
    planting: id,
    crop,
    part: total > 0 ? lengthM / total : 1 / plantings.length,
  }))
}

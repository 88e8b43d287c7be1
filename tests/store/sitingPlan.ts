import type { SitingPlan } from '../../geo/siting/answer.ts'
import { readPlanFile, type SitingAsked } from '../../geo/siting/planFile.ts'
import { openDemo } from '../unit/demo/opened.ts'

/** A plan file for the demo farm. */
export const PLAN = {
  from: 2027,
  years: 4,
  need: { Solanaceae: 60, Fabaceae: 40 },
  return_years: { Solanaceae: 4, Fabaceae: 2 },
  system: 'wirework',
  instead: 'postnet',
  labour_per_hour: 15,
  weights: { low_yield: 0 },
}
export const asked = (more: object = {}): SitingAsked => {
  const read = readPlanFile({ ...PLAN, ...more })
  if ('faults' in read) throw new Error(JSON.stringify(read.faults))
  return read.asked
}
const demo = openDemo()

/** What a plan does that its file forbids, by the demo's own tables and nothing of the choice's code. */
export function wrongs(plan: SitingPlan, of: SitingAsked): string[] {
  const said: string[] = []
  const crop = new Map(demo.varieties.map(({ id, crop }) => [id, crop]))
  const family = new Map(demo.crops.map(({ id, family }) => [id, family]))
  const bedOfRow = new Map(demo.rows.map(({ properties }) => [properties.id, String(properties.bed)]))
  const stood = demo.plantings.map((line) => ({
    bed: line.bed || bedOfRow.get(line.row!),
    family: family.get(crop.get(line.variety!)!),
    year: Number(line.set_out!.slice(0, 4)),
  }))
  const climbs = [...plan.rows, ...plan.one_season].flatMap(({ bed, years }) =>
    Object.entries(years).map(([year, name]) => ({ bed, family: name, year: Number(year) })),
  )
  for (const one of climbs) {
    const wait = of.return_years[one.family]!
    for (const other of [...stood.filter(({ year }) => year < of.from), ...climbs])
      if (
        other !== one &&
        other.bed === one.bed &&
        other.family === one.family &&
        other.year <= one.year &&
        one.year - other.year < wait
      )
        said.push(`${one.family} in ${one.bed} in ${one.year} after ${other.year}`)
    if (climbs.some((other) => other !== one && other.bed === one.bed && other.year === one.year))
      said.push(`two rows in ${one.bed} in ${one.year}`)
  }
  for (const [name, needM] of Object.entries(of.need))
    for (let year = of.from; year < of.from + of.years; year++) {
      const { permanent_m: along, one_season_m: pulled } = plan.metres.find(
        (m) => m.family === name && m.year === year,
      )!
      if (Math.abs(along + pulled - needM) > 1e-6)
        said.push(`${along} + ${pulled} of ${needM} m for ${name} in ${year}`)
      const carried = plan.rows.filter(({ years }) => years[year] === name).reduce((sum, row) => sum + row.length_m, 0)
      if (along > carried + 1e-6) said.push(`${along} m along ${carried} m for ${name} in ${year}`)
    }
  const rows = plan.rows.map(({ bed, side }) => `${bed} ${side}`)
  if (new Set(plan.rows.map(({ bed }) => bed)).size !== rows.length) said.push('two supports in one bed')
  for (const { bed, side } of of.fix)
    if (!rows.includes(`${bed} ${side}`)) said.push(`${bed} ${side} is fixed and not there`)
  for (const { bed, side } of of.forbid) if (rows.includes(`${bed} ${side}`)) said.push(`${bed} ${side} is forbidden`)
  return said
}

import { nearEffects } from '../../../geo/yield/near/effects.ts'
import { factorsOf } from '../../../geo/yield/near/factors.ts'
import { plotsOf } from '../../../geo/yield/plots/plots.ts'
import { seasonsFigures } from '../../../geo/yield/yieldReport.ts'
import { SETTINGS } from './farms.ts'
import { type Planted, plantedField } from './plantedField.ts'

/** What was found on many invented fields. */
export interface Found {
  /** Share of fields on which some zone overlaps the planted ground. */
  readonly recall: number
  /** Share of the planted ground that lies in zones, over all fields. */
  readonly groundFound: number
  /** Share of fields that show a zone off the planted ground; where nothing is planted, any zone. */
  readonly falseFields: number
  /** Share of fields whose planted cause ranks first of what lies near. */
  readonly causeFirst: number
  /** Share of fields on which something that is not the cause is called a sure link. */
  readonly falseLinks: number
}

/** Looks for the planted ground and its cause on fields of the seeds from 1 to `fields`. */
export function searchFields(fields: number, planted: Planted): Found {
  const sums = { recall: 0, planted: 0, found: 0, falseFields: 0, causeFirst: 0, falseLinks: 0 }
  for (let seed = 1; seed <= fields; seed += 1) {
    const { input, disc, around, cause, groundOf } = plantedField(seed, planted)
    const figures = seasonsFigures([input], SETTINGS, null)
    const isPlanted = figures.stretches.map(({ x, y }) => Math.hypot(x - disc.x, y - disc.y) <= disc.radiusM)
    const zones = figures.zones.map(({ stretches }) => stretches)
    const hit = zones.some((zone) => zone.some((s) => isPlanted[s]))
    const off = zones.some((zone) => planted.shortfall === 0 || !zone.some((s) => isPlanted[s]))
    const inZones = new Set(zones.flat())
    figures.stretches.forEach(({ areaM2 }, s) => {
      if (!isPlanted[s]) return
      sums.planted += areaM2
      if (inZones.has(s)) sums.found += areaM2
    })
    const plots = plotsOf(figures)
    const { effects } = nearEffects(
      {
        index: plots.map(({ kg, expectedKg }) => kg / expectedKg),
        areasM2: plots.map(({ areaM2 }) => areaM2),
        xs: plots.map(({ x }) => x),
        ys: plots.map(({ y }) => y),
      },
      factorsOf(groundOf(plots), around, []),
    )
    if (hit) sums.recall += 1
    if (off) sums.falseFields += 1
    if (effects[0]!.id === cause) sums.causeFirst += 1
    if (effects.some(({ id, tells }) => (planted.shortfall === 0 || id !== cause) && tells.startsWith('goes')))
      sums.falseLinks += 1
  }
  return {
    recall: sums.recall / fields,
    groundFound: sums.found / sums.planted,
    falseFields: sums.falseFields / fields,
    causeFirst: sums.causeFirst / fields,
    falseLinks: sums.falseLinks / fields,
  }
}

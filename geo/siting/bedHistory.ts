import { familyNamed } from '../catalogue/families.ts'
import type { Ground } from '../growing/ground.ts'
import { growingSeason, lastSeason } from '../growing/growingSeason.ts'
import { seasonOf } from '../yield/season.ts'

/** By bed: the most rows that climbed in it in one season. */
export function climbingRows(ground: Ground, month: number): Map<string, number> {
  const rows = new Map<string, Map<number, Set<string>>>()
  for (const { row, variety, set_out: setOut } of ground.plantings) {
    const bed = row === null ? undefined : ground.rows.get(row)?.bed
    if (!row || !bed || ground.crops.get(ground.varieties.get(variety)?.crop ?? '')?.climbs !== true) continue
    const seasons = rows.get(bed) ?? new Map<number, Set<string>>()
    const season = seasonOf(setOut, month)
    seasons.set(season, (seasons.get(season) ?? new Set()).add(row))
    rows.set(bed, seasons)
  }
  return new Map([...rows].map(([bed, seasons]) => [bed, Math.max(...[...seasons.values()].map(({ size }) => size))]))
}

/** By bed and family: the last season before the plan in which it stood there. */
export function lastSeasons(ground: Ground, month: number, from: number): Map<string, Map<string, number>> {
  const last = new Map<string, Map<string, number>>()
  for (const { row, bed, variety, set_out: setOut, cleared } of ground.plantings) {
    const at = bed ?? (row === null ? null : ground.rows.get(row)?.bed)
    const crop = ground.crops.get(ground.varieties.get(variety)?.crop ?? '')
    const grown = growingSeason(setOut, cleared, month)
    const season = cleared === null ? grown : Math.max(grown, lastSeason(setOut, cleared, month))
    if (!at || !crop || season >= from || setOut === cleared) continue
    const families = last.get(at) ?? new Map<string, number>()
    const family = familyNamed(crop.family)
    families.set(family, Math.max(season, families.get(family) ?? season))
    last.set(at, families)
  }
  return last
}

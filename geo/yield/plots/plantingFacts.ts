import type { LineString } from 'geojson'
import { HELD_WITHIN_M } from '../../measure/held.ts'
import type { Metres } from '../../plane/lonLat.ts'
import { spansLength, spansWithin } from '../../plane/within.ts'
import type { Database } from '../../store/database.ts'
import { fromEwkb } from '../../store/ewkb.ts'

/** What a planting was, and what it stood along. */
export interface PlantingFacts {
  readonly id: string
  readonly crop: string
  readonly cropName: string
  readonly family: string
  readonly climbs: boolean
  readonly variety: string
  readonly varietyName: string
  /** As told, else its length over the spacing told; null where neither is. */
  readonly plants: number | null
  /** The support system that held half of it or more, and the most of it; null where none did. */
  readonly system: string | null
  readonly systemName: string | null
}

interface Row extends Omit<PlantingFacts, 'plants' | 'system' | 'systemName'> {
  readonly plants: number | null
  readonly spacing: number | null
  readonly line: string
  readonly supports: { system: string; name: string; line: string }[] | null
}

/** Facts of plantings, by their id. A support held it where it ran within 0.6 m of it while both stood. */
export async function plantingFacts(
  db: Database,
  plantings: readonly string[],
): Promise<ReadonlyMap<string, PlantingFacts>> {
  const rows = await db.rows<Row>(FACTS, [plantings])
  return new Map(
    rows.map(({ plants, spacing, line, supports, ...facts }) => {
      const row = lineOf(line)
      const lengthM = row.slice(1).reduce((sum, [x, y], k) => sum + Math.hypot(x - row[k]![0], y - row[k]![1]), 0)
      const held = heldMost(row, lengthM, supports ?? [])
      const counted = plants ?? (spacing === null ? null : lengthM / spacing)
      return [facts.id, { ...facts, plants: counted, system: held?.system ?? null, systemName: held?.name ?? null }]
    }),
  )
}

function heldMost(
  row: readonly Metres[],
  lengthM: number,
  supports: readonly { system: string; name: string; line: string }[],
): { system: string; name: string } | undefined {
  if (row.length < 2) return undefined
  const bySystem = new Map<string, { name: string; lines: (readonly Metres[])[] }>()
  for (const { system, name, line } of supports) {
    const lines = bySystem.get(system)?.lines ?? []
    bySystem.set(system, { name, lines: [...lines, lineOf(line)] })
  }
  const [most] = [...bySystem]
    .map(([system, { name, lines }]) => ({ system, name, heldM: spansLength(spansWithin(row, lines, HELD_WITHIN_M)) }))
    .sort((a, b) => b.heldM - a.heldM)
  return most && most.heldM >= lengthM / 2 ? most : undefined
}

function lineOf(hex: string): readonly Metres[] {
  const shape = fromEwkb(hex)
  return shape.type === 'LineString' ? ((shape as LineString).coordinates as unknown as Metres[]) : []
}

const FACTS = `select p.id, v.crop, c.name as "cropName", c.family, coalesce(c.climbs, false) as climbs,
    v.id as variety, v.name as "varietyName", p.plants, p.spacing_m as spacing,
    encode(st_asewkb(t.plan), 'hex') as line,
    (select jsonb_agg(jsonb_build_object('system', s.system, 'name', y.name, 'line', encode(st_asewkb(s.plan), 'hex')))
     from supports s join systems y on y.id = s.system where st_dwithin(s.plan, t.plan, ${HELD_WITHIN_M})
       and coalesce(s.put_up < coalesce(p.cleared, 'infinity'), true)
       and coalesce(s.taken_down > p.set_out, true)) as supports
  from plantings p join stretches t on t.planting = p.id
  join varieties v on v.id = p.variety join crops c on c.id = v.crop
  where p.id = any($1) order by p.ord`

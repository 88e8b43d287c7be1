import { clearance } from '../measure/clearance.ts'
import { measureBeds } from '../measure/measure.ts'
import type { AnyRecord } from '../model/kind.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'
import { gaveBySeason } from './gaveBySeason.ts'
import { dressingsOf, seenIn } from './inBeds.ts'
import { lotsIn } from './lotsIn.ts'

/** So many of the latest dressings and observations stand on the card. */
const LATEST = 30

/** A bed: its measures, what stands and stood in it, what it gave each season, what was put on it and seen, its stock, and the walnuts near it. */
export async function bedCard(db: Database, record: AnyRecord, on: string): Promise<CardBody> {
  const [bed] = await measureBeds(db, on, [record.id])
  if (!bed) throw new Error(`bed ${record.id} was not measured`)
  const stood = await db.rows<{
    crop: string
    variety: string
    row: string | null
    from: string
    until: string | null
    length_m: number
  }>(
    `select c.name as crop, v.name as variety, coalesce(r.name, r.side) as row, s.set_out as "from", s.cleared as until,
      st_length(s.plan) as length_m
     from stretches s join crops c on c.id = s.crop join varieties v on v.id = s.variety left join rows r on r.id = s.row
     where s.planting = any(array(select plantings_in(array[$1]))) and s.set_out <= $2::date order by s.set_out desc, r.ord limit 60`,
    [record.id, on],
  )
  const gave = await gaveBySeason(db, record.id, on)
  const near = await clearance(db, on, record.id)
  const names = await db.rows<{ id: string; name: string }>('select id, coalesce(name, species) as name from trees')
  const nameOf = new Map(names.map((tree) => [tree.id, tree.name]))
  const upTo = { from: '0001-01-01', to: on }
  const dressed = await dressingsOf(db, [record.id], upTo)
  const seen = await seenIn(db, [record.id], upTo)
  const lots = await lotsIn(db, [record.id], on)
  const [field] = await db.rows<{ name: string }>('select name from fields where id = $1', [bed.field])
  return {
    title: bed.name,
    subtitle: field?.name ?? '',
    lines: [
      { label: 'area', value: bed.area_m2, unit: 'm2', from: 'Area of the outline in the farm’s plane.' },
      { label: 'length', value: bed.length_m, unit: 'm', from: 'Long axis of the least rectangle about the bed.' },
      { label: 'width', value: bed.width_m, unit: 'm', from: 'Area divided by length.' },
      {
        label: 'bearing',
        value: bed.bearing_deg,
        unit: 'deg',
        from: 'Of the long axis, clockwise from the plane’s north.',
      },
      { label: 'row metres', value: bed.row_m, unit: 'm', from: 'Sum of the lengths of its rows.' },
      {
        label: 'supports',
        value: bed.support_m,
        unit: 'm',
        from: 'Supports standing on the day; each counts to the bed that holds most of it.',
      },
      {
        label: 'climbing',
        value: bed.climbing_m,
        unit: 'm',
        from: 'Metres of climbing plantings standing on the day.',
      },
      { label: 'unheld', value: bed.unheld_m, unit: 'm', from: 'Climbing metres with no support within 0.6 m.' },
    ],
    tables: [
      {
        title: 'What stood here',
        columns: ['crop', 'variety', 'row', 'from', 'until', 'm'],
        rows: stood.map((s) => [s.crop, s.variety, s.row, s.from, s.until, s.length_m]),
      },
      {
        title: 'What it gave',
        columns: ['season', 'kg', 'picks'],
        rows: gave.map((g) => [String(g.season), g.kg, g.picks]),
      },
      {
        title: 'Stock',
        columns: ['lot', 'row', 'left', 'in the ground', 'to lift'],
        rows: lots.map(({ kind, row, counts }) => [kind, row, counts.left, counts.standing, counts.toLift]),
        opens: { kind: 'stock_lots' as const, ids: lots.map(({ id }) => id) },
      },
      {
        title: 'What was put on',
        columns: ['day', 'what', 'kg/m²', 'note'],
        rows: dressed
          .slice(0, LATEST)
          .map(({ on: day, material, kg_per_m2, raw_manure, note }) => [
            day,
            raw_manure ? `${material} (raw manure)` : material,
            kg_per_m2,
            note,
          ]),
        opens: { kind: 'dressings' as const, ids: dressed.map(({ id }) => id) },
      },
      {
        title: 'What was seen',
        columns: ['day', 'what', 'severity', 'note'],
        rows: seen.slice(0, LATEST).map(({ on: day, kind, severity, note }) => [day, kind, severity, note]),
        opens: { kind: 'observations' as const, ids: seen.map(({ id }) => id) },
      },
      {
        title: 'Walnuts near',
        columns: ['tree', 'trunk m', 'canopy m', 'm² within reach', 'sensitive now'],
        rows: near.map((p) => [
          nameOf.get(p.tree) ?? p.tree,
          p.trunk_m,
          p.canopy_m,
          p.within_reach_m2,
          p.sensitive.join(', ') || null,
        ]),
      },
    ].filter((table) => table.rows.length > 0),
  }
}

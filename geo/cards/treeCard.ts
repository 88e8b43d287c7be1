import { spreadOn } from '../measure/canopy.ts'
import { clearance } from '../measure/clearance.ts'
import { isJugloneSource } from '../measure/juglone.ts'
import type { AnyRecord } from '../model/kind.ts'
import type { Tree } from '../model/trees.ts'
import type { Database } from '../store/database.ts'
import type { CardBody } from './card.ts'

/** A tree: its spread on the day and, where it gives off juglone, the beds about it. */
export async function treeCard(db: Database, record: AnyRecord, on: string): Promise<CardBody> {
  const tree = record as unknown as Tree
  const spread = spreadOn(tree, on)
  const source = isJugloneSource(tree)
  const pairs = source ? (await clearance(db, on)).filter((pair) => pair.tree === tree.id) : []
  const names = await db.rows<{ id: string; name: string }>('select id, name from beds')
  const nameOf = new Map(names.map((bed) => [bed.id, bed.name]))
  const basis = spread.assumed
    ? 'As last measured, or assumed from the height: no growth curve is published for this species.'
    : 'As measured, grown to the day by the species’ curve (USDA Forest Service PSW-GTR-253).'
  return {
    title: tree.name ?? tree.species,
    subtitle: [tree.name ? tree.species : null, tree.rootstock && `on ${tree.rootstock}`].filter(Boolean).join(', '),
    lines: [
      {
        label: 'height',
        value: tree.height_m,
        unit: 'm',
        from: tree.measured ? `Measured on ${tree.measured}.` : 'As recorded.',
      },
      { label: 'canopy radius', value: spread.canopyM, unit: 'm', from: basis },
      ...(source
        ? [
            {
              label: 'root reach',
              value: spread.reachM,
              unit: 'm' as const,
              from: 'As far as a young tree is tall, up to 18.3 m (60 ft) for a mature walnut; between them assumed (Ohio State; UW–Madison XHT1017). Evidence on juglone is disputed.',
            },
          ]
        : []),
      {
        label: 'juglone',
        value: source ? 'gives it off' : 'none to mind',
        from: 'By its record, else by species or rootstock (Purdue HO-193; OMAFRA).',
      },
    ],
    tables: [
      {
        title: 'Beds near',
        columns: ['bed', 'trunk m', 'canopy m', 'm² under canopy', 'm² within reach', 'sensitive now'],
        rows: pairs.map((p) => [
          nameOf.get(p.bed) ?? p.bed,
          p.trunk_m,
          p.canopy_m,
          p.under_canopy_m2,
          p.within_reach_m2,
          p.sensitive.join(', ') || null,
        ]),
      },
    ].filter((table) => table.rows.length > 0),
  }
}

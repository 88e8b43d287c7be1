import { cropOf } from '../../../geo/catalogue/catalogueCrop.ts'
import type { Planting } from '../../../geo/model/plantings.ts'
import type { Edits } from '../state/steps.ts'
import type { Fresh } from './draft.ts'

/** The edits that keep plantings, and before them the varieties and crops that come with them. `taken`: ids of the crops there are. */
export function draftEdits(
  drafts: readonly { readonly planting: Planting; readonly kept: Planting | null; readonly fresh: Fresh | null }[],
  taken: ReadonlySet<string>,
): Edits {
  const added = new Map<string, Edits[number]>()
  const edits: Edits[number][] = []
  for (const { planting, kept, fresh } of drafts) {
    if (fresh?.crop) {
      const crop = fresh.crop.of === 'farm' ? fresh.crop.id : cropId(fresh.crop.entry.key, fresh.id, taken)
      if (fresh.crop.of === 'catalogue')
        added.set(`crop ${crop}`, { do: 'add', kind: 'crops', record: cropOf(fresh.crop.entry, crop) })
      const record = { id: fresh.id, crop, name: fresh.name.trim(), note: null, extra: {} }
      added.set(`variety ${fresh.id}`, { do: 'add', kind: 'varieties', record })
    }
    if (kept) {
      const { id, extra: _, ...to } = planting
      edits.push({ do: 'change', kind: 'plantings', id, to })
    } else edits.push({ do: 'add', kind: 'plantings', record: planting })
  }
  return [...added.values(), ...edits]
}

/** The catalogue's own name for a crop, so that it is known again; else one made of the id of what brings it. */
const cropId = (key: string, otherwise: string, taken: ReadonlySet<string>) =>
  taken.has(key) ? `${key} ${otherwise}` : key

import { useState } from 'preact/hooks'
import type { Planting } from '../../../geo/model/plantings.ts'
import type { Card } from '../../desk/door.ts'
import { later } from '../../ui/later.tsx'
import { Removal } from '../ground/Removal.tsx'
import { followPlanting, movePlanting, setOut } from '../state/settingOut.ts'
import { sheet } from '../state/where.ts'

const Clearing = later(() => import('./Clearing.tsx').then(({ Clearing }) => Clearing))

/** What can be done about growing from a card: of a planting, and of the bed or row that something may be set out in. */
export function GrowingDeeds({ card }: { readonly card: Card }) {
  const [open, setOpen] = useState<'clear' | 'remove' | null>(null)
  const { kind, id, record } = card
  if (kind === 'beds' || kind === 'rows') {
    if (sheet.value !== 'growing') return null
    const where = kind === 'beds' ? { bed: id, row: null } : { bed: String(record.bed), row: id }
    return (
      <button type="button" onClick={() => setOut(where)}>
        Set out here
      </button>
    )
  }
  if (kind !== 'plantings') return null
  const planting = record as unknown as Planting
  return (
    <>
      <button type="button" onClick={() => setOpen('clear')}>
        Clear
      </button>
      <button type="button" onClick={() => movePlanting(planting, card.title)}>
        Move or change
      </button>
      <button type="button" onClick={() => followPlanting(planting, card.title)}>
        Set out after it
      </button>
      <button type="button" onClick={() => setOpen('remove')}>
        Remove
      </button>
      {open === 'clear' && <Clearing card={card} onClose={() => setOpen(null)} />}
      {open === 'remove' && <Removal card={card} word="planting" onClose={() => setOpen(null)} />}
    </>
  )
}

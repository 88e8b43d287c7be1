import { LotEntry } from './LotEntry.tsx'
import { MoveEntry } from './MoveEntry.tsx'
import type { StockForm } from './stockEntry.ts'

/** The form of a lot, or of a move of one. */
export function StockForms({ form }: { readonly form: StockForm }) {
  return form.of === 'lot' ? (
    <LotEntry key={form.lot?.id ?? 'new'} lot={form.lot} />
  ) : (
    <MoveEntry
      key={form.correcting?.id ?? `${form.lot.id} ${form.move}`}
      lot={form.lot}
      move={form.move}
      correcting={form.correcting}
    />
  )
}

import { useMemo } from 'preact/hooks'
import type { PickedFor } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { massFigure, showShare, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { households } from './households.ts'
import { UNTOLD } from './seasonLines.ts'
import { type Account, type Settlement, settle } from './settle.ts'
import { WhoBelongs } from './WhoBelongs.tsx'

type Between = Settlement['between'][number]

/** Who picked against who had it, so that shares can be settled; what nobody is told to have had is told. */
export function WhoHadIt({ lines }: { readonly lines: readonly PickedFor[] }) {
  const by = households.value
  const settled = useMemo(() => settle(lines, by), [lines, by])
  if (settled.totalKg === 0) return null
  const unit = units.value === 'us' ? 'lb' : 'kg'
  const mass = (kg: number) => massFigure(kg, units.value).value
  const signed = (kg: number) => (kg > 0.05 ? `+${mass(kg)}` : mass(kg))
  const accounts: readonly Column<Account>[] = [
    { head: 'who', cell: ({ name }) => name, sort: ({ name }) => name },
    { head: 'picked', unit, number: true, cell: ({ pickedKg }) => mass(pickedKg), sort: ({ pickedKg }) => pickedKg },
    { head: 'had', unit, number: true, cell: ({ hadKg }) => mass(hadKg), sort: ({ hadKg }) => hadKg },
    { head: 'had less picked', unit, number: true, cell: ({ overKg }) => signed(overKg), sort: ({ overKg }) => overKg },
  ]
  const between: readonly Column<Between>[] = [
    { head: 'picked by', cell: ({ picker }) => picker ?? UNTOLD, sort: ({ picker }) => picker },
    { head: 'had by', cell: ({ to }) => to, sort: ({ to }) => to },
    { head: 'mass', unit, number: true, cell: ({ kg }) => mass(kg), sort: ({ kg }) => kg },
  ]
  const { totalKg, notSharedKg, untoldPickerKg } = settled
  return (
    <section aria-label="Who picked, who had it">
      <h2>Who picked, who had it</h2>
      <p>
        Of {told(massFigure(totalKg, units.value))}, {told(massFigure(totalKg - notSharedKg, units.value))} are shared
        out
        {notSharedKg > 0 && (
          <>
            {' '}
            and <strong>{told(massFigure(notSharedKg, units.value))}</strong> ({showShare(notSharedKg / totalKg)}) are
            not told to be anybody’s
          </>
        )}
        .{untoldPickerKg > 0 && ` Of ${told(massFigure(untoldPickerKg, units.value))} it is not told who picked.`}
      </p>
      <Table
        caption="What each picked and had"
        quietCaption
        columns={accounts}
        rows={settled.accounts}
        rowKey={({ name }) => name}
        few={20}
      />
      <From about="who had it">
        Each pick’s mass times the part that was told, summed. Where people pick and households receive, say below who
        belongs to which: they count as one then.
      </From>
      <WhoBelongs lines={lines} />
      {settled.between.length > 0 && (
        <details class="more">
          <summary>Who picked for whom</summary>
          <Table
            caption="Who picked for whom"
            quietCaption
            columns={between}
            rows={settled.between}
            rowKey={({ picker, to }) => JSON.stringify([picker, to])}
            few={40}
          />
          <p>
            For: {settled.uses.map(({ use, kg }) => `${use ?? UNTOLD} ${told(massFigure(kg, units.value))}`).join(', ')}
            .
          </p>
        </details>
      )}
    </section>
  )
}

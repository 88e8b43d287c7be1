import type { PartNeeded } from '../../../geo/supports/materialsOf.ts'
import type { PartUnit } from '../../../geo/supports/partRule.ts'
import { type Column, Table } from '../../ui/Table.tsx'
import { areaFigure, lengthFigure, showCount, told } from '../show/figures.ts'
import { showMoney } from '../show/money.ts'
import { units } from '../state/farm.ts'

/** How many of a part, in the person's units. */
export function showAmount(amount: number | null, unit: PartUnit): string {
  if (amount === null) return 'not known'
  if (unit === 'piece') return showCount(amount)
  return told(unit === 'm' ? lengthFigure(amount, units.value) : areaFigure(amount, units.value))
}

/** The parts of a bill with what they cost. */
export function PartTable({ parts }: { readonly parts: readonly PartNeeded[] }) {
  const columns: readonly Column<PartNeeded>[] = [
    { head: 'part', cell: ({ part }) => part, sort: ({ part }) => part },
    {
      head: 'needed',
      number: true,
      cell: ({ count, unit, uncounted }) => (
        <>
          {showAmount(count, unit)}
          {uncounted > 0 && count !== null ? ' *' : ''}
        </>
      ),
      sort: ({ count }) => count,
    },
    {
      head: 'cost',
      number: true,
      cell: ({ cost, unpriced }) => (cost === null ? 'no price' : `${showMoney(cost)}${unpriced > 0 ? ' *' : ''}`),
      sort: ({ cost }) => cost,
    },
  ]
  const some = parts.some(({ uncounted, unpriced, count }) => count === null || uncounted > 0 || unpriced > 0)
  return (
    <>
      <Table
        caption="Parts needed and what they cost"
        quietCaption
        columns={columns}
        rows={parts}
        rowKey={({ part, unit }) => `${part} ${unit}`}
      />
      {some && (
        <p class="note">
          * Not counted or priced for every run: a rule can’t be read, plants or a height are not known, or there is no
          price. Sums are of what is known.
        </p>
      )}
    </>
  )
}

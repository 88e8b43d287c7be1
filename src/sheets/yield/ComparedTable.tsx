import type { Comparison } from '../../desk/door.ts'
import { type Column, Table } from '../../ui/Table.tsx'
import { alongFigure, KG_PER_POUND, massFigure, showCount, showNumber } from '../show/figures.ts'
import { units } from '../state/farm.ts'

interface Props {
  readonly caption: string
  readonly rows: readonly Comparison[]
  readonly group: (one: Comparison) => string
}

/** Two groups of a crop a line: what each gave, how far apart they are, how many beds that rests on, and what it tells. */
export function ComparedTable({ caption, rows, group }: Props) {
  const perM = (kg: number) => alongFigure(kg, units.value)
  const rate = ({ per }: Comparison, kg: number) =>
    per === 'row metre' ? perM(kg).value : showNumber(units.value === 'us' ? kg / KG_PER_POUND : kg, 2)
  const columns: readonly Column<Comparison>[] = [
    { head: 'more', cell: ({ a }) => a.name, sort: ({ a }) => a.name },
    { head: 'less', cell: ({ b }) => b.name, sort: ({ b }) => b.name },
    { head: 'gave', number: true, cell: (one) => `${rate(one, one.a.rate)} / ${rate(one, one.b.rate)}` },
    {
      head: 'per',
      cell: ({ per }) => (per === 'plant' ? `plant, ${massFigure(0, units.value).unit}` : `row, ${perM(0).unit}`),
    },
    {
      head: 'apart by',
      cell: (one) =>
        one.told === null || one.told.low === null || one.told.high === null
          ? '–'
          : `${rate(one, one.told.low)} to ${rate(one, one.told.high)}`,
    },
    {
      head: 'beds',
      number: true,
      cell: ({ a, b, told }) =>
        told?.paired ? `${showCount(told.counts[0]!)} with both` : `${showCount(a.beds)} / ${showCount(b.beds)}`,
    },
    { head: 'tells', cell: ({ verdict }) => verdict },
  ]
  return (
    <Table
      caption={caption}
      columns={columns}
      rows={rows}
      rowKey={(one) => `${one.by} ${one.per} ${one.crop} ${one.a.id} ${one.b.id}`}
      group={group}
      few={24}
    />
  )
}

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
  const unit = ({ per }: Comparison) =>
    per === 'plant' ? `${massFigure(0, units.value).unit} a plant` : `${perM(0).unit} of row`
  const columns: readonly Column<Comparison>[] = [
    {
      head: 'more / less',
      cell: ({ a, b }) => `${a.name} / ${b.name}`,
      sort: ({ a, b }) => `${a.name} / ${b.name}`,
    },
    {
      head: 'gave',
      cell: (one) => (
        <>
          {rate(one, one.a.rate)} / {rate(one, one.b.rate)} <span class="hint">{unit(one)}</span>
        </>
      ),
    },
    {
      head: 'tells',
      cell: (one) => (
        <>
          {one.verdict}
          <span class="hint">
            {one.told !== null &&
              one.told.low !== null &&
              one.told.high !== null &&
              `; apart by ${rate(one, one.told.low)} to ${rate(one, one.told.high)}`}
            ; beds {bedsWords(one)}
          </span>
        </>
      ),
      sort: ({ verdict }) => verdict,
    },
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

const bedsWords = ({ a, b, told }: Comparison) =>
  told?.paired ? `${showCount(told.counts[0]!)} with both` : `${showCount(a.beds)} / ${showCount(b.beds)}`

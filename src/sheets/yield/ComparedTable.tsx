import type { Comparison } from '../../desk/door.ts'
import { type Column, Table } from '../../ui/Table.tsx'
import { alongFigure, KG_PER_POUND, massFigure, showCount, showNumber } from '../show/figures.ts'
import { units } from '../state/farm.ts'

interface Props {
  readonly caption: string
  readonly rows: readonly Comparison[]
  readonly group: (one: Comparison) => string
}

/** Two groups of a crop a line: what that tells, what each gave, how far apart they are and how many beds that rests on. */
export function ComparedTable({ caption, rows, group }: Props) {
  const perM = (kg: number) => alongFigure(kg, units.value)
  const rate = ({ per }: Comparison, kg: number) =>
    per === 'row metre' ? perM(kg).value : showNumber(units.value === 'us' ? kg / KG_PER_POUND : kg, 2)
  const unit = ({ per }: Comparison) => (per === 'plant' ? `${massFigure(0, units.value).unit} a plant` : perM(0).unit)
  const columns: readonly Column<Comparison>[] = [
    { head: 'tells', cell: ({ verdict }) => (verdict === 'differ' ? 'they differ' : verdict) },
    {
      head: 'gave',
      cell: (one) => (
        <>
          {one.a.name} {rate(one, one.a.rate)}, <br />
          {one.b.name} {rate(one, one.b.rate)} {unit(one)}
        </>
      ),
      sort: ({ a }) => a.name,
    },
    {
      head: 'apart by',
      cell: (one) => {
        const { told } = one
        const range =
          told === null || told.low === null || told.high === null
            ? ''
            : `${rate(one, told.low)} to ${rate(one, told.high)},`
        return (
          <>
            {range} {range !== '' && <br />}
            {bedsWords(one)}
          </>
        )
      },
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
  told?.paired ? `${showCount(told.counts[0]!)} beds with both` : `${showCount(a.beds)} and ${showCount(b.beds)} beds`

import type { Comparison } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { alongFigure, KG_PER_POUND, massFigure, showCount, showNumber } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { yieldGround } from '../state/yieldGround.ts'
import { yieldCompared, yieldMoreFault } from '../state/yieldMore.ts'
import { groundWords } from './groundWords.ts'

const BY = { system: 'Support against support', variety: 'Variety against variety', side: 'Side against side' } as const

/** Systems, varieties and sides set against each other within crops, with how sure that is. */
export function Compared() {
  const all = yieldCompared.value
  const { seasons, of } = yieldGround.value
  if (!all) return yieldMoreFault.value ? null : <Progress doing="Setting plantings against each other" />
  if (all.comparisons.length === 0)
    return (
      <p class="first-steps">
        <strong>There is nothing to set against each other in {groundWords(seasons, of)}.</strong> It takes two
        supports, varieties or sides of one crop, picked by planting.
      </p>
    )
  const sure = all.comparisons.filter(({ told }) => told !== null)
  const untold = all.comparisons.length - sure.length
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
    <section aria-label="Set against each other">
      <h2>Set against each other</h2>
      {sure.length > 0 && (
        <Table
          caption={`What gave more, ${groundWords(seasons, of)}`}
          columns={columns}
          rows={sure}
          rowKey={(one) => `${one.by} ${one.per} ${one.crop} ${one.a.id} ${one.b.id}`}
          group={({ cropName, by }) => `${cropName}: ${BY[by].toLowerCase()}`}
          few={24}
        />
      )}
      {untold > 0 && <p>{showCount(untold)} more have too few beds: too little to tell.</p>}
      <From about="these comparisons">
        {all.rule} Apart by: the difference lies there 95 times of 100. Other things differ too: bed, planting day, who
        picked.
      </From>
    </section>
  )
}

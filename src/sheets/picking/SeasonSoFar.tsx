import { useState } from 'preact/hooks'
import type { SeasonPicking } from '../../desk/door.ts'
import { Chart } from '../../ui/Chart.tsx'
import { Choice } from '../../ui/Choice.tsx'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDayOfYear } from '../show/dates.ts'
import { KG_PER_POUND, massFigure, showCount } from '../show/figures.ts'
import { choose } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import type { ChartAsked } from './drawChart.ts'
import { byCrop, byWeek, UNTOLD } from './seasonLines.ts'

type By = 'week' | 'crop' | 'bed' | 'person'

/** One line of the season: a week, crop, bed or person. */
interface Line {
  readonly key: string
  readonly name: string
  readonly kg: number
  readonly picks: number
  readonly bed?: string | null
}

const OPTIONS = [
  { value: 'week', words: 'week' },
  { value: 'crop', words: 'crop' },
  { value: 'bed', words: 'bed' },
  { value: 'person', words: 'person' },
] as const

const loadDraw = async () => (await import('./drawChart.ts')).drawChart

/** The season so far as a chart, with the same figures as a table under it. */
export function SeasonSoFar({ told }: { readonly told: SeasonPicking }) {
  const [by, setBy] = useState<By>('week')
  const lines = linesBy(told, by)
  const columns: readonly Column<Line>[] = [
    {
      head: by === 'week' ? 'week from' : by,
      cell: ({ name }) => name,
      sort: ({ key, name }) => (by === 'week' ? key : name),
    },
    { head: 'picks', number: true, cell: ({ picks }) => showCount(picks), sort: ({ picks }) => picks },
    {
      head: 'picked',
      unit: units.value === 'us' ? 'lb' : 'kg',
      number: true,
      cell: ({ kg }) => massFigure(kg, units.value).value,
      sort: ({ kg }) => kg,
    },
  ]
  return (
    <section aria-label="The season so far" class="so-far">
      <h2>The season so far</h2>
      <Choice label="Picked by" options={OPTIONS} value={by} onChange={setBy} />
      <Chart chart={chartBy(told, by, lines)} load={loadDraw} />
      <Table
        caption={`Picked by ${by}`}
        quietCaption
        columns={columns}
        rows={lines}
        rowKey={({ key }) => key}
        few={12}
        {...(by === 'bed' && {
          onChoose: ({ bed }: Line) => {
            if (bed) void choose({ kind: 'beds', id: bed })
          },
        })}
      />
      <From about={`a ${by}`}>{GROUNDS[by]}</From>
    </section>
  )
}

const GROUNDS: Readonly<Record<By, string>> = {
  week: 'Every pick told in the week, whatever it was told of. Weeks are counted from the first day of the season.',
  crop: 'By the crop of the planting that was picked; picks told of a bed or a spot have no crop. Bars: one a week, all crops to the same scale.',
  bed: 'A planting’s pick counts to its bed, a spot’s to the bed that holds it.',
  person: 'By who picked, as told with the pick.',
}

function linesBy(told: SeasonPicking, by: By): readonly Line[] {
  if (by === 'week')
    return byWeek(told.weeks).map(({ week, kg, picks }) => ({ key: week, name: showDayOfYear(week), kg, picks }))
  if (by === 'crop')
    return byCrop(told.weeks).map(({ crop, name, kg, picks }) => ({ key: crop ?? '', name, kg, picks }))
  if (by === 'bed')
    return told.beds.map(({ bed, name, kg, picks }) => ({
      key: bed ?? '',
      name: name ?? 'outside beds',
      kg,
      picks,
      bed,
    }))
  return told.people.map(({ picker, kg, picks }) => ({ key: picker ?? '', name: picker ?? UNTOLD, kg, picks }))
}

function chartBy(told: SeasonPicking, by: By, lines: readonly Line[]): ChartAsked {
  const unit = units.value === 'us' ? 'lb' : 'kg'
  const mass = (kg: number) => (units.value === 'us' ? kg / KG_PER_POUND : kg)
  const { from, to } = told
  if (by === 'week')
    return { of: 'weeks', from, to, unit, weeks: lines.map(({ key, kg }) => ({ week: key, mass: mass(kg) })) }
  if (by === 'crop')
    return {
      of: 'crops',
      from: [to, ...told.weeks.map(({ week }) => week)].sort()[0]!,
      to,
      unit,
      crops: byCrop(told.weeks).map(({ name, kg, weeks }) => ({
        name,
        mass: mass(kg),
        weeks: weeks.map((one) => ({ week: one.week, mass: mass(one.kg) })),
      })),
    }
  return { of: 'bars', unit, bars: lines.map(({ name, kg }) => ({ name, mass: mass(kg) })) }
}

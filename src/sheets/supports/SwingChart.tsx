import type { Swing } from '../../../geo/supports/sensitivity.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showMoney } from '../show/money.ts'

interface Props {
  readonly swings: readonly Swing[]
  /** What is saved as assumed. */
  readonly now: number
}

const [WIDE, HIGH] = [360, 30]

/** What the permanent run saves, each assumption moved alone by a third: bars from the one to the other, widest first. */
export function SwingChart({ swings, now }: Props) {
  const all = [0, now, ...swings.flatMap(({ low, high }) => [low.saves, high.saves])]
  const [least, most] = [Math.min(...all), Math.max(...all)]
  const x = (value: number) => 6 + ((value - least) / Math.max(1e-9, most - least)) * (WIDE - 12)
  const paid = ({ paidBackIn }: Swing['low']) => (paidBackIn === null ? 'not yet' : String(paidBackIn))
  const columns: readonly Column<Swing>[] = [
    { head: 'assumption', cell: ({ assumption }) => assumption, sort: ({ assumption }) => assumption },
    { head: 'a third less', number: true, cell: ({ low }) => showMoney(low.saves, 0), sort: ({ low }) => low.saves },
    {
      head: 'a third more',
      number: true,
      cell: ({ high }) => showMoney(high.saves, 0),
      sort: ({ high }) => high.saves,
    },
    { head: 'paid in season', number: true, cell: ({ low, high }) => `${paid(low)} / ${paid(high)}` },
  ]
  const high = swings.length * HIGH + 22
  return (
    <>
      <svg class="plain-chart" viewBox={`0 0 ${WIDE} ${high}`} aria-hidden="true">
        <path class="axis" d={`M${x(0)} 0V${high - 16}`} />
        <path class="day-line" d={`M${x(now)} 0V${high - 16}`} />
        {swings.map(({ assumption, low, high }, n) => {
          const [a, b] = [x(low.saves), x(high.saves)].sort((p, q) => p - q) as [number, number]
          return (
            <g key={assumption}>
              <text x={6} y={n * HIGH + 12}>
                {assumption}
              </text>
              <rect class="bar" x={a} y={n * HIGH + 16} width={Math.max(1, b - a)} height={9} />
            </g>
          )
        })}
        <text x={x(0)} y={high - 3} text-anchor={x(0) < 30 ? 'start' : x(0) > WIDE - 30 ? 'end' : 'middle'}>
          even
        </text>
      </svg>
      <Table
        caption="What the permanent run saves by the end"
        columns={columns}
        rows={swings}
        rowKey={({ assumption }) => assumption}
      />
      <From about="what it hangs on">
        Each assumption alone made a third less and a third more, all others left as they are. The upright line in the
        accent is the saving as assumed now; “even” is neither saved nor lost.
      </From>
    </>
  )
}

import { useMemo } from 'preact/hooks'
import type { Answer, NearEffect } from '../../desk/door.ts'
import { Chart } from '../../ui/Chart.tsx'
import { accuracyFigure, showCount, told } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import type { PartialChart } from './drawPartial.ts'

type Drawn = Answer<'yieldNear'>['partial'][number]

/** No more points than this are drawn, evenly from all of them. */
const MOST_POINTS = 400

const loadDraw = async () => (await import('./drawPartial.ts')).drawPartial

/** How the index goes with one thing, the others held at their mean: dots, the model's line and its interval. */
export function PartialFigure({ effect, partial }: { readonly effect: NearEffect; readonly partial: Drawn }) {
  const inUnits = units.value
  const chart = useMemo(
    () => chartOf(effect, partial, (m) => told(accuracyFigure(m, inUnits))),
    [effect, partial, inUnits],
  )
  const signed = (index: number) => `${index < 0 ? '−' : '+'}${Math.round(Math.abs(index) * 100)}`
  const every = everyDrawn(partial)
  const others = partial.heldWith.length
  return (
    <figure class="partial">
      <Chart chart={chart} load={loadDraw} />
      <figcaption>
        {others > 0 ? `With ${showCount(others)} other things held at their mean` : 'Looked at alone'}:{' '}
        {signed(partial.effect)} % of par from one end to the other, {signed(partial.low)} to {signed(partial.high)} in
        95 of 100 such farms. A dot is one of {showCount(partial.points.length)} plots
        {every > 1 && `, of which one in ${showCount(every)} is drawn`}; dashes: where the line may lie.
      </figcaption>
    </figure>
  )
}

const everyDrawn = ({ points }: Drawn): number => Math.ceil(points.length / MOST_POINTS)

function chartOf({ kind, reachM }: NearEffect, partial: Drawn, long: (metres: number) => string): PartialChart {
  const ends: Readonly<Record<string, readonly [string, string]>> = {
    shade: ['in full sun', 'all sun lost'],
    support: ['others', 'held by it'],
    dressing: ['without', 'with it'],
    'family before': ['another family', 'the same'],
  }
  const away = reachM === null ? 'away' : `${long(reachM)} and more away`
  const [none, all] = ends[kind] ?? [away, kind === 'walnut' || kind === 'canopy' ? 'beneath it' : 'at it']
  const points = partial.points.filter((_, k) => k % everyDrawn(partial) === 0)
  return { points, line: partial.line, none, all, eitherOr: reachM === null && kind !== 'shade' }
}

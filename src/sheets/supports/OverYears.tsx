import { useState } from 'preact/hooks'
import { type CostOverYears, costOverYears, paidBackIn } from '../../../geo/supports/costOverYears.ts'
import type { Recipe } from '../../../geo/supports/recipe.ts'
import { sensitivity } from '../../../geo/supports/sensitivity.ts'
import { usualPair } from '../../../geo/supports/usualPair.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { lengthFigure, showCount, told } from '../show/figures.ts'
import { showMoney } from '../show/money.ts'
import { assume, assumed } from '../state/assumed.ts'
import { units } from '../state/farm.ts'
import { AssumedEntry, LabourEntry, MinutesChoice } from './AssumedEntry.tsx'
import { SwingChart } from './SwingChart.tsx'
import { allRuns, chosenRun, recipes, whereOf } from './scope.ts'

/** Systems side by side for one run over years, and what the choice hangs on. */
export function OverYears() {
  const systems = recipes.value
  const longest = [...allRuns.value].sort((a, b) => b.run.lengthM - a.run.lengthM)[0]
  const looked = chosenRun.value ?? longest ?? null
  const [permanentId, setPermanent] = useState('')
  const [oneSeasonId, setOneSeason] = useState('')
  if (systems.length === 0)
    return <p class="hint">The farm has no support system to compare: add some with Systems, under the map.</p>
  const run = looked
    ? { lengthM: looked.run.lengthM, heightM: looked.run.heightM, plants: looked.run.plants }
    : { lengthM: 20, heightM: null, plants: null }
  const { seasons, labourPerHour } = assumed.value
  const asLeftUp = systems.map((recipe) => costOverYears(run, { recipe, permanent: true }, seasons, { labourPerHour }))
  const asSeason = systems.map((recipe) => costOverYears(run, { recipe, permanent: false }, seasons, { labourPerHour }))
  const pair = usualPair(
    systems,
    allRuns.value.map(({ run }) => run),
    looked?.recipe.id ?? null,
  )
  const permanent = systems.find(({ id }) => id === permanentId) ?? pair.permanent
  const oneSeason = systems.find(({ id }) => id === oneSeasonId) ?? pair.oneSeason
  const at = (recipe: Recipe) => systems.indexOf(recipe)
  const paid = paidBackIn(asLeftUp[at(permanent)]!, asSeason[at(oneSeason)]!)
  const saves = asSeason[at(oneSeason)]!.total.at(-1)! - asLeftUp[at(permanent)]!.total.at(-1)!
  const choice = (label: string, value: string, set: (id: string) => void) => (
    <label>
      {label}{' '}
      <select value={value} onInput={(event) => set(event.currentTarget.value)}>
        {systems.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  )
  return (
    <section aria-label="Systems over the years">
      <h2>
        Over {showCount(seasons)} seasons, for {told(lengthFigure(run.lengthM, units.value))}
      </h2>
      <p class="note">
        {looked ? `The run in ${whereOf(looked.run)}${chosenRun.value ? '' : ', the longest'}` : 'An assumed run'}
        {run.plants === null ? '; plants are not known, so what is counted by plants is left out' : ''}. Tap another run
        to compare for it.
      </p>
      <LabourEntry />
      <MinutesChoice />
      <AssumedEntry
        label="Seasons looked ahead"
        value={String(seasons)}
        least={1}
        most={50}
        take={(value) => assume({ seasons: Math.round(value ?? 10) })}
      />
      <YearsTable leftUp={asLeftUp} season={asSeason} />
      <h3>When the permanent one has paid</h3>
      <div class="beside-each" data-print="no">
        {choice('Left up', permanent.id, setPermanent)}
        {choice('Put up each season', oneSeason.id, setOneSeason)}
      </div>
      <p>
        <strong>
          {paid === null
            ? `${permanent.name}, left up, has not paid within ${showCount(seasons)} seasons.`
            : `${permanent.name}, left up, has paid from season ${showCount(paid)} on.`}
        </strong>{' '}
        Against {oneSeason.name} put up each season it {saves >= 0 ? 'saves' : 'costs more by'}{' '}
        {showMoney(Math.abs(saves), 0)} by then.
      </p>
      <h3>What that hangs on</h3>
      <SwingChart swings={sensitivity({ run, permanent, oneSeason, seasons, labourPerHour })} now={saves} />
    </section>
  )
}

interface Line {
  readonly id: string
  readonly name: string
  readonly first: number
  readonly season: number
  readonly leftUp: number
  readonly unknown: readonly string[]
}

function YearsTable({
  leftUp,
  season,
}: {
  readonly leftUp: readonly CostOverYears[]
  readonly season: readonly CostOverYears[]
}) {
  const lines = season.map(
    (one, n): Line => ({
      id: one.system,
      name: one.name,
      first: one.bySeason[0]!,
      season: one.total.at(-1)!,
      leftUp: leftUp[n]!.total.at(-1)!,
      unknown: one.unknown,
    }),
  )
  const money = (head: string, of: (line: Line) => number): Column<Line> => ({
    head,
    number: true,
    cell: (line) => `${showMoney(of(line), 0)}${line.unknown.length > 0 ? ' *' : ''}`,
    sort: of,
  })
  return (
    <>
      <Table
        caption="Systems side by side, parts and labour"
        columns={[
          { head: 'system', cell: ({ name }) => name, sort: ({ name }) => name },
          money('first season', ({ first }) => first),
          money('each season anew', ({ season }) => season),
          money('left up', ({ leftUp }) => leftUp),
        ]}
        rows={lines}
        rowKey={({ id }) => id}
      />
      {lines.some(({ unknown }) => unknown.length > 0) && (
        <p class="note">* Without parts that have no price or can’t be counted for this run.</p>
      )}
      <From about="costs over the years">
        Every part is bought in the first season and again whenever it has lasted its seasons. Put up each season:
        labour to put up, tend and take down every season. Left up: put up once for as long as its posts last. Not every
        system can be left up: read that column for those that can.
      </From>
    </>
  )
}

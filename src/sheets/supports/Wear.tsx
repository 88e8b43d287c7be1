import type { TimedWork } from '../../../geo/supports/timedRecipe.ts'
import { ENOUGH } from '../../../geo/supports/timedWork.ts'
import { type SystemWear, wearBySystem } from '../../../geo/supports/wearBySystem.ts'
import type { WorkPhase } from '../../../geo/supports/workPhase.ts'
import type { WornRun } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { METRES_PER_FOOT, showCount, showNumber } from '../show/figures.ts'
import { choose } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import { compared, seen, supportsFault, wear } from '../state/supports.ts'
import { ComparedTable } from '../yield/ComparedTable.tsx'
import { seasonsWords } from '../yield/groundWords.ts'
import { whereOf } from './scope.ts'

const PHASES: readonly WorkPhase[] = ['putting up', 'each season', 'taking down']

/** What was seen broken and how long runs stood, and which system held up better, with how sure that is. */
export function Wear() {
  const all = wear.value
  if (!all) return <p class="hint">Reckoning</p>
  const us = units.value === 'us'
  const per = us ? 'in 100 ft' : 'in 100 m'
  const each = us ? 100 * METRES_PER_FOOT : 100
  const broken = all.filter(({ breakages }) => breakages.length > 0)
  const systems = wearBySystem(all, seen.value?.recipes ?? [], seen.value?.timed ?? [])
  const range = (low: number | null, high: number | null, show: (value: number) => string) =>
    low === null || high === null ? 'too little to tell' : `${show(low)} to ${show(high)}`
  const systemColumns: readonly Column<SystemWear>[] = [
    { head: 'system', cell: ({ name }) => name, sort: ({ name }) => name },
    { head: 'runs', number: true, cell: ({ runs }) => showCount(runs), sort: ({ runs }) => runs },
    {
      head: 'broken',
      unit: per,
      number: true,
      cell: ({ rate }) => (rate ? showNumber(rate.kgPerRowM * each, 2) : '–'),
      sort: ({ rate }) => rate?.kgPerRowM ?? null,
    },
    {
      head: 'between',
      cell: ({ rate, tells }) =>
        rate && tells ? range(rate.low, rate.high, (value) => showNumber(value * each, 2)) : 'too little to tell',
    },
  ]
  return (
    <section aria-label="Age and condition">
      <h2>Seen broken</h2>
      {broken.length === 0 ? (
        <p>
          Nothing was seen broken up to this day. An observation within 1.5 m of a run counts to it where it names a
          part and what is wrong with it: “wire broken”, “leaning post”, “net ripped” and the like; one that only says
          “crack” counts where its note names the part.
        </p>
      ) : (
        <BrokenTable runs={broken} />
      )}
      <Table caption="How systems held up" columns={systemColumns} rows={systems} rowKey={({ system }) => system} />
      <From about="how systems held up">
        Broken: times that something was seen broken, over the metres of its runs and the seasons that they stood in.
        Between: 95 of 100 redraws of the runs lie there (bootstrap); fewer than {showCount(ENOUGH)} runs, or none seen
        broken, is too little to tell.
      </From>
      <TimeTable systems={systems} />
      <SystemsCompared />
    </section>
  )
}

function BrokenTable({ runs }: { readonly runs: readonly WornRun[] }) {
  const columns: readonly Column<WornRun>[] = [
    { head: 'where', cell: whereOf, sort: whereOf },
    { head: 'system', cell: ({ systemName }) => systemName, sort: ({ systemName }) => systemName },
    {
      head: 'stood',
      cell: ({ seasons, takenDown }) =>
        `${seasons === null ? 'not known' : `${showCount(seasons)} ${seasons === 1 ? 'season' : 'seasons'}`}${takenDown === null ? ', stands' : ''}`,
      sort: ({ seasons }) => seasons,
    },
    {
      head: 'seen broken',
      cell: ({ breakages }) => breakages.map(({ on, kind }) => `${kind}, ${showDay(on)}`).join('; '),
      sort: ({ breakages }) => breakages.length,
    },
  ]
  return (
    <Table
      caption="Runs with something broken, and how long they stood"
      columns={columns}
      rows={runs}
      rowKey={({ id }) => id}
      onChoose={({ id }) => void choose({ kind: 'supports', id })}
      few={12}
    />
  )
}

/** What crops gave under one system against another: the Yield sheet's own comparisons, and its verdicts. */
function SystemsCompared() {
  const all = compared.value
  if (!all) return supportsFault.value ? null : <Progress doing="Setting systems against each other" />
  const words = seasonsWords(all.seasons)
  return (
    <>
      <h2>What crops gave by system</h2>
      {all.comparisons.length === 0 ? (
        <p>No crop was picked under two systems in {words}: too little to tell.</p>
      ) : (
        <ComparedTable
          caption={`System against system, ${words}`}
          rows={all.comparisons}
          group={({ cropName }) => cropName}
        />
      )}
      <From about="what crops gave by system">
        The Yield sheet’s comparisons of these seasons, under the system that held half of a planting or more.{' '}
        {all.rule} Apart by: the difference lies there 95 times of 100. Other things differ too: bed, planting day, who
        picked.
      </From>
    </>
  )
}

interface TimeLine {
  readonly key: string
  readonly name: string
  readonly phase: WorkPhase
  readonly told: number
  readonly timed: TimedWork | undefined
}

/** Minutes for each metre by system and work: as the systems tell, and as the grower timed them. */
function TimeTable({ systems }: { readonly systems: readonly SystemWear[] }) {
  const us = units.value === 'us'
  const show = (minutesPerM: number) => showNumber(minutesPerM * (us ? METRES_PER_FOOT : 1), 1)
  const recipes = new Map(seen.value?.recipes.map((recipe) => [recipe.id, recipe]))
  const lines = systems.flatMap(({ system, name, timed }) =>
    PHASES.flatMap((phase): TimeLine[] => {
      const told = (recipes.get(system)?.work ?? []).reduce(
        (sum, work) => sum + (work.phase === phase ? (work.minutesPerM ?? 0) : 0),
        0,
      )
      const own = timed.find((one) => one.phase === phase)
      return told === 0 && !own ? [] : [{ key: `${system} ${phase}`, name, phase, told, timed: own }]
    }),
  )
  if (lines.length === 0) return null
  const columns: readonly Column<TimeLine>[] = [
    { head: 'work', cell: ({ phase }) => phase },
    { head: 'as told', number: true, cell: ({ told }) => show(told), sort: ({ told }) => told },
    {
      head: 'timed',
      number: true,
      cell: ({ timed }) => (timed ? show(timed.minutesPerM) : '–'),
      sort: ({ timed }) => timed?.minutesPerM ?? null,
    },
    {
      head: 'between',
      cell: ({ timed }) =>
        !timed
          ? 'not timed'
          : timed.low === null || timed.high === null
            ? `too little to tell (${showCount(timed.times)})`
            : `${show(timed.low)} to ${show(timed.high)}`,
    },
  ]
  return (
    <>
      <Table
        caption={`Minutes for each ${us ? 'ft' : 'm'}`}
        columns={columns}
        rows={lines}
        rowKey={({ key }) => key}
        group={({ name }) => name}
      />
      <From about="minutes for each metre">
        As told: those of the farm’s system. Timed: what was noted on the cards of its runs, over the metres of those
        runs, each run once a season. Between: 95 of 100 redraws of runs and seasons lie there (bootstrap); fewer than{' '}
        {showCount(ENOUGH)} are too little to tell. Tap a run to note what work on it took.
      </From>
    </>
  )
}

import type { WornRun } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { alongFigure, METRES_PER_FOOT, showCount, showNumber, told } from '../show/figures.ts'
import { choose } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import { seen, wear } from '../state/supports.ts'
import { whereOf } from './scope.ts'
import { type CropBySystem, type SystemWear, wearBySystem, yieldBySystem } from './wearBySystem.ts'

/** What was seen broken and how long runs stood, and which system held up better, with how sure that is. */
export function Wear() {
  const all = wear.value
  if (!all) return <p class="hint">Reckoning</p>
  const us = units.value === 'us'
  const per = us ? 'in 100 ft' : 'in 100 m'
  const each = us ? 100 * METRES_PER_FOOT : 100
  const broken = all.runs.filter(({ breakages }) => breakages.length > 0)
  const systems = wearBySystem(all.runs, seen.value?.recipes ?? [])
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
    {
      head: `min/${us ? 'ft' : 'm'}`,
      number: true,
      cell: ({ minutesPerM }) => showNumber(minutesPerM * (us ? METRES_PER_FOOT : 1), 1),
      sort: ({ minutesPerM }) => minutesPerM,
    },
  ]
  return (
    <section aria-label="Age and condition">
      <h2>Seen broken</h2>
      {broken.length === 0 ? (
        <p>
          Nothing was seen broken up to this day. An observation within 1.5 m of a run counts to it: “broken line”,
          “leaning post”, “net torn” and the like.
        </p>
      ) : (
        <BrokenTable runs={broken} />
      )}
      <Table caption="How systems held up" columns={systemColumns} rows={systems} rowKey={({ system }) => system} />
      <From about="how systems held up">
        Broken: times that something was seen broken, over the metres of its runs and the seasons that they stood in.
        Between: 95 of 100 redraws of the runs lie there (bootstrap); fewer than {showCount(5)} runs, or none seen
        broken, is too little to tell. Minutes: those of the farm’s system for each season of a one-season run, not
        timed ones.
      </From>
      <YieldTable lines={yieldBySystem(all.yields, systemName)} />
    </section>
  )
}

const systemName = (id: string) => seen.value?.recipes.find((recipe) => recipe.id === id)?.name ?? id

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

function YieldTable({ lines }: { readonly lines: readonly CropBySystem[] }) {
  if (lines.length === 0)
    return <p>No cleared planting along a run has been picked yet: too little to tell of yields.</p>
  const show = (kgPerM: number) => told(alongFigure(kgPerM, units.value))
  const columns: readonly Column<CropBySystem>[] = [
    { head: 'system', cell: ({ systemName }) => systemName, sort: ({ systemName }) => systemName },
    {
      head: 'plantings',
      number: true,
      cell: ({ plantings }) => showCount(plantings),
      sort: ({ plantings }) => plantings,
    },
    { head: 'gave', number: true, cell: ({ kgPerRowM }) => show(kgPerRowM), sort: ({ kgPerRowM }) => kgPerRowM },
    {
      head: 'between',
      cell: ({ low, high }) => (low === null || high === null ? 'too little to tell' : `${show(low)} to ${show(high)}`),
    },
  ]
  return (
    <>
      <Table
        caption="What crops gave by system"
        columns={columns}
        rows={lines}
        rowKey={({ crop, system }) => `${crop} ${system}`}
        group={({ cropName, verdict }) => `${cropName}: ${verdict}`}
      />
      <From about="what crops gave by system">
        Cleared plantings, each under the system that held most of it, where that was half of it or more; all it gave
        over its row. Between: 95 of 100 redraws of the plantings (bootstrap). Two systems differ where their ranges
        don’t meet and each has five plantings at least. Other things differ too: bed, variety, year.
      </From>
    </>
  )
}

import { useState } from 'preact/hooks'
import type { BedShade } from '../../desk/door.ts'
import { Entry } from '../../ui/Entry.tsx'
import { Figure } from '../../ui/Figure.tsx'
import { From } from '../../ui/From.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { isCalendarDay } from '../show/days.ts'
import { showCount, showNumber, showShare } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import { openFarm } from '../state/farm.ts'
import { measured } from '../state/shown.ts'
import { askSunLost, losing, stopSunLost, sunLost, sunLostStale } from '../state/siting.ts'
import { on } from '../state/where.ts'
import { growingMonths } from './growingMonths.ts'

/** Hours of direct sun that each bed loses between two days. */
export function SunLostTable() {
  const told = sunLost.value
  const beds = measured.value?.beds.length ?? 0
  if (beds === 0)
    return (
      <p class="first-steps">
        <strong>There is no bed to reckon for.</strong> Draw a field on the Ground sheet and lay out beds in it.
      </p>
    )
  return (
    <>
      {told && <Lost told={told} />}
      <Span />
      {told && <ByBed told={told} />}
    </>
  )
}

type Told = NonNullable<typeof sunLost.value>

function Lost({ told }: { readonly told: Told }) {
  const shaded = told.beds.filter(({ lostHours }) => lostHours >= told.sunHours / 10)
  return (
    <Figure
      value={showCount(shaded.length)}
      unit={shaded.length === 1 ? 'bed' : 'beds'}
      from="Sun hours: time in which the sun stands 5° or more above the horizon, on every fifth day at every quarter of an hour; no clouds, flat ground. A bed’s loss is the mean over spots in it, at most forty. What throws shadows is taken as on the middle day of each month: supports that stand then, in full leaf, crowns grown to that day, structures whose height is told. A bed shades itself too: a run along it counts."
    >
      of {showCount(told.beds.length)} lose a tenth or more of their direct sun, out of {showNumber(told.sunHours, 0)} h
      from {showDay(told.from)} to {showDay(told.to)}.{' '}
      {sunLostStale.value && <strong>The farm has changed since: reckon again.</strong>}
    </Figure>
  )
}

/** The two days, and the work under way. */
function Span() {
  const first = growingMonths(on.value, openFarm.value?.origin?.[1] ?? 0)
  const [from, setFrom] = useState(sunLost.value?.from ?? first.from)
  const [to, setTo] = useState(sunLost.value?.to ?? first.to)
  const [asked, setAsked] = useState(false)
  const now = losing.value
  const faults = asked ? faultsOf(from, to) : {}
  return (
    <form
      class="sun-span"
      data-print="no"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        setAsked(true)
        if (Object.keys(faultsOf(from, to)).length === 0) void askSunLost(from, to, measured.value?.beds.length ?? 0)
      }}
    >
      <div class="beside-each">
        <Entry label="From" fault={faults.from}>
          {(names) => (
            <input {...names} type="date" value={from} onInput={(event) => setFrom(event.currentTarget.value)} />
          )}
        </Entry>
        <Entry label="To" fault={faults.to}>
          {(names) => <input {...names} type="date" value={to} onInput={(event) => setTo(event.currentTarget.value)} />}
        </Entry>
      </div>
      {now ? (
        <>
          <Progress doing="Reckoning the sun month by month" done={now.done} of={now.of} />
          <button type="button" onClick={stopSunLost}>
            Stop
          </button>
        </>
      ) : (
        <button type="submit" class="first-deed">
          Reckon the sun lost
        </button>
      )}
    </form>
  )
}

const MOST_DAYS = 366

function faultsOf(from: string, to: string): { from?: string; to?: string } {
  if (!isCalendarDay(from)) return { from: 'Give the first day.' }
  if (!isCalendarDay(to)) return { to: 'Give the last day.' }
  if (to < from) return { to: 'This lies before the first day.' }
  if (Date.parse(to) - Date.parse(from) >= MOST_DAYS * 86_400_000) return { to: 'At most a year from the first day.' }
  return {}
}

function ByBed({ told }: { readonly told: Told }) {
  const names = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const name = ({ bed }: BedShade) => names.get(bed) ?? bed
  const hours = (head: string, of: (one: BedShade) => number): Column<BedShade> => ({
    head,
    unit: 'h',
    number: true,
    cell: (one) => (of(one) === 0 ? '–' : showNumber(of(one), of(one) < 10 ? 1 : 0)),
    sort: of,
  })
  const columns: readonly Column<BedShade>[] = [
    { head: 'bed', cell: name, sort: name },
    hours('lost', (one) => one.lostHours),
    {
      head: 'of its sun',
      number: true,
      cell: (one) => (one.lostHours === 0 ? '–' : showShare(one.lostHours / told.sunHours)),
      sort: (one) => one.lostHours,
    },
    hours('trees', (one) => one.byTrees),
    hours('supports', (one) => one.bySupports),
    hours('built', (one) => one.byStructures),
  ]
  return (
    <section aria-label="Sun lost by bed">
      <h2>Bed by bed</h2>
      <Table
        caption="Direct sun lost by bed"
        quietCaption
        columns={columns}
        rows={[...told.beds].sort((a, b) => b.lostHours - a.lostHours)}
        rowKey={({ bed }) => bed}
        chosen={chosen.value?.kind === 'beds' ? chosen.value.id : null}
        onChoose={({ bed }) => void choose({ kind: 'beds', id: bed })}
      />
      <From about="the sun that a bed loses">
        Trees, supports and what is built: what each sort would take by itself. Together they may take less, as two can
        stand before the sun at once.
      </From>
    </section>
  )
}

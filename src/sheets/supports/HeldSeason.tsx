import { useState } from 'preact/hooks'
import { type HeldOn, type HeldPiece, heldByDay } from '../../../geo/supports/heldByDay.ts'
import { daysToSupport, type SupportDue, supportsDue } from '../../../geo/supports/supportDue.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDayOfYear } from '../show/dates.ts'
import { addDays, seasonEnds } from '../show/days.ts'
import { showCount, wholeLengthFigure } from '../show/figures.ts'
import { choose } from '../state/chosen.ts'
import { seasonStartMonth, units } from '../state/farm.ts'
import { measured } from '../state/shown.ts'
import { doEdits } from '../state/steps.ts'
import { held } from '../state/supports.ts'
import { on, season } from '../state/where.ts'
import { AssumedEntry } from './AssumedEntry.tsx'
import { HeldChart } from './HeldChart.tsx'
import { whereOf } from './scope.ts'

/** How much of the climbing row was held through the season, and which plantings needed it sooner than they had it. */
export function HeldSeason() {
  const [field, setField] = useState('')
  const [crop, setCrop] = useState('')
  if (held.value?.season !== season.value) return <p class="hint">Reckoning</p>
  const all = held.value.pieces
  const { from, next } = seasonEnds(season.value, seasonStartMonth.value)
  const to = addDays(next, -1)
  const pieces = all.filter((one) => (field === '' || one.field === field) && (crop === '' || one.crop === crop))
  const steps = heldByDay(pieces)
  const crops = [...new Map(all.map((piece) => [piece.crop, piece])).values()]
  const fields = [...new Set(all.map((piece) => piece.field))]
  const fieldName = (id: string) => measured.value?.fields.find((one) => one.id === id)?.name ?? id
  if (all.length === 0) return <p class="hint">Nothing that climbs stands in this season.</p>
  return (
    <section aria-label="Held through the season">
      <h2>Held through the season</h2>
      <div class="beside-each" data-print="no">
        <label>
          Field{' '}
          <select value={field} onInput={(event) => setField(event.currentTarget.value)}>
            <option value="">all</option>
            {fields.map((id) => (
              <option key={id} value={id}>
                {fieldName(id)}
              </option>
            ))}
          </select>
        </label>
        <label>
          Crop{' '}
          <select value={crop} onInput={(event) => setCrop(event.currentTarget.value)}>
            <option value="">all that climb</option>
            {crops.map((one) => (
              <option key={one.crop} value={one.crop}>
                {one.cropName}
              </option>
            ))}
          </select>
        </label>
      </div>
      <HeldChart steps={steps} from={from} to={to} on={on.value} />
      <p class="chart-key">
        <span class="key held-area" /> held <span class="key unheld-area" /> without a support
      </p>
      <StepTable steps={steps} />
      <DueTable due={supportsDue(pieces, on.value)} />
      <CropDays crops={crops.filter((one) => crop === '' || one.crop === crop)} />
    </section>
  )
}

function StepTable({ steps }: { readonly steps: readonly HeldOn[] }) {
  const m = (lengthM: number) => wholeLengthFigure(lengthM, units.value).value
  const unit = units.value === 'us' ? 'ft' : 'm'
  const column = (head: string, of: (step: HeldOn) => number): Column<HeldOn> => ({
    head,
    unit,
    number: true,
    cell: (step) => m(of(step)),
    sort: of,
  })
  return (
    <Table
      caption="Climbing row from day to day"
      columns={[
        { head: 'from', cell: (step) => showDayOfYear(step.on), sort: (step) => step.on },
        column('climbing', ({ climbingM }) => climbingM),
        column('held', ({ heldM }) => heldM),
        column('unheld', ({ climbingM, heldM }) => climbingM - heldM),
      ]}
      rows={steps}
      rowKey={(step) => step.on}
      few={8}
    />
  )
}

function DueTable({ due }: { readonly due: readonly SupportDue[] }) {
  const told = (one: SupportDue) => {
    if (one.lateDays > 0) return <span class="amiss">{`${showCount(one.lateDays)} days late`}</span>
    if (one.heldFrom !== null) return 'in time'
    return one.neededOn > on.value ? 'not yet needed' : 'not held'
  }
  const columns: readonly Column<SupportDue>[] = [
    {
      head: 'planting',
      cell: ({ cropName, bed }) => `${cropName}, ${whereOf({ bed, field: null })}`,
      sort: ({ cropName }) => cropName,
    },
    { head: 'needed', cell: ({ neededOn }) => showDayOfYear(neededOn), sort: ({ neededOn }) => neededOn },
    {
      head: 'held from',
      cell: ({ heldFrom }) => (heldFrom === null ? 'not held' : showDayOfYear(heldFrom)),
      sort: ({ heldFrom }) => heldFrom,
    },
    { head: 'so', cell: told, sort: ({ lateDays }) => lateDays, number: true },
  ]
  return (
    <>
      <Table
        caption="When support was needed, and when it stood"
        columns={columns}
        rows={[...due].sort((a, b) => b.lateDays - a.lateDays)}
        rowKey={({ planting }) => planting}
        onChoose={({ planting }) => void choose({ kind: 'plantings', id: planting })}
        few={12}
      />
      <From about="when support is needed">
        Needed: the day it was set out and as many days as its crop takes to a height at which it falls over. Held: the
        first day on which a run held all but a twentieth of its row; it may have stood before. Late: days from the one
        to the other, up to the day looked at.
      </From>
    </>
  )
}

/** The assumption behind it, a crop at a time, kept with the crop. */
function CropDays({ crops }: { readonly crops: readonly HeldPiece[] }) {
  return (
    <details class="more">
      <summary>Days until a crop needs its support</summary>
      {crops.map((one) => {
        const { days, assumed } = daysToSupport(one)
        return (
          <AssumedEntry
            key={`${one.crop} ${days}`}
            label={`${one.cropName}, days from setting out`}
            hint={
              assumed ? 'Assumed, from memory: to some 30 cm of growth.' : 'As this farm has it. Empty: assumed again.'
            }
            value={String(days)}
            least={0}
            most={400}
            mayBeEmpty
            atLast
            take={(value) =>
              void doEdits(`Days until ${one.cropName} needs support`, [
                {
                  do: 'change',
                  kind: 'crops',
                  id: one.crop,
                  to: { support_after_days: value === null ? null : Math.round(value) },
                },
              ])
            }
          />
        )
      })}
    </details>
  )
}

import { useEffect, useState } from 'preact/hooks'
import type { StockLot } from '../../../geo/model/stock.ts'
import { Entry } from '../../ui/Entry.tsx'
import { NumberEntry } from '../../ui/NumberEntry.tsx'
import { narrow } from '../frame/narrow.ts'
import { OneOf } from '../picking/PickDetails.tsx'
import { openFarm } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { showPane } from '../state/pane.ts'
import { bedOfRow } from '../state/plantings.ts'
import { layers, measured } from '../state/shown.ts'
import { doEdits } from '../state/steps.ts'
import { lots } from '../state/stock.ts'
import { tapTaker } from '../state/tapTaker.ts'
import { on } from '../state/where.ts'
import { shutStockForm } from './stockEntry.ts'

type Faults = Readonly<Partial<Record<'kind' | 'bed' | 'count' | 'year' | 'price' | 'other', string>>>

/** A lot is entered, or changed: what, where, how many, its year, grade and price. */
export function LotEntry({ lot }: { readonly lot: StockLot | null }) {
  const firstBed = lot?.bed ?? (lot?.row ? (bedOfRow.value.get(lot.row) ?? null) : null)
  const [kind, setKind] = useState<string | null>(lot?.kind ?? null)
  const [bed, setBed] = useState(firstBed)
  const [row, setRow] = useState(lot?.row ?? null)
  const [count, setCount] = useState(lot ? String(lot.count) : '')
  const [year, setYear] = useState(lot ? String(lot.year ?? '') : on.value.slice(0, 4))
  const [grade, setGrade] = useState<string | null>(lot?.grade ?? null)
  const [price, setPrice] = useState(lot?.price == null ? '' : String(lot.price))
  const [faults, setFaults] = useState<Faults>({})
  useEffect(() => {
    tapTaker.value = (told) => {
      if (told.bed === null) return
      setBed(told.bed)
      setRow(told.row)
      showPane('card')
    }
    return () => {
      tapTaker.value = null
    }
  }, [])
  const rows = layers.value?.rows.features.filter(({ properties }) => properties.bed === bed) ?? []
  const known = (of: 'kind' | 'grade') => [
    ...new Set((lots.value ?? []).flatMap((one) => (one[of] === null ? [] : [one[of]])).reverse()),
  ]
  const keep = async () => {
    const read = { count: whole(count), year: year.trim() === '' ? null : whole(year), price: money(price) }
    const wrong: Faults = {
      ...(kind === null || kind.trim() === '' ? { kind: 'Say what plants they are.' } : {}),
      ...(bed === null ? { bed: 'Say where they stand.' } : {}),
      ...(Number.isNaN(read.count) || read.count < 1 ? { count: 'Say how many there are, in whole plants.' } : {}),
      ...(read.year !== null && !(read.year >= 1 && read.year <= 9999) ? { year: 'Is not a year.' } : {}),
      ...(read.price !== null && !(read.price >= 0) ? { price: 'Is not a price.' } : {}),
    }
    setFaults(wrong)
    if (Object.keys(wrong).length > 0) return
    const fields = { ...read, kind: kind!.trim(), bed, row, grade: grade?.trim() || null }
    const id = lot?.id ?? newId()
    const reply = lot
      ? await doEdits(`Change the lot ${fields.kind}`, [{ do: 'change', kind: 'stock_lots', id, to: fields }])
      : await doEdits(`New lot: ${fields.count} ${fields.kind}`, [
          { do: 'add', kind: 'stock_lots', record: { id, ...fields, extra: {} } },
        ])
    if (reply.ok) void shutStockForm(id)
    else setFaults(reply.fault.field === 'count' ? { count: reply.fault.detail } : { other: reply.fault.detail })
  }
  return (
    <form
      class="pick-entry lot-entry"
      aria-label={lot ? 'Change a lot' : 'New lot'}
      onSubmit={(event) => {
        event.preventDefault()
        void keep()
      }}
    >
      <h2>{lot ? `Change ${lot.kind}` : 'New lot'}</h2>
      <OneOf label="What plants" known={known('kind')} value={kind} onTell={setKind} />
      {faults.kind && (
        <p class="fault" role="alert">
          {faults.kind}
        </p>
      )}
      <div class="two-entries">
        <Entry label="Bed" hint="Or tap it on the map." fault={faults.bed}>
          {(labels) => (
            <select
              {...labels}
              value={bed ?? ''}
              onChange={(event) => {
                setBed(event.currentTarget.value || null)
                setRow(null)
              }}
            >
              <option value="">which?</option>
              {measured.value?.beds.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Entry>
        <Entry label="Row">
          {(labels) => (
            <select {...labels} value={row ?? ''} onChange={(event) => setRow(event.currentTarget.value || null)}>
              <option value="">the whole bed</option>
              {rows.map(({ properties: { id, name, side } }, i) => (
                <option key={id} value={id}>
                  {name ?? side ?? `row ${i + 1}`}
                </option>
              ))}
            </select>
          )}
        </Entry>
      </div>
      {narrow.value && (
        <button type="button" onClick={() => showPane('map')}>
          Tap it on the map
        </button>
      )}
      <div class="two-entries">
        <NumberEntry label="Plants" fault={faults.count} whole value={count} onType={setCount} />
        <NumberEntry label="Raised in" fault={faults.year} whole value={year} onType={setYear} />
      </div>
      <OneOf label="Grade" known={known('grade')} value={grade} onTell={setGrade} />
      <NumberEntry
        label={`Price of one${openFarm.value?.farm.currency ? `, ${openFarm.value.farm.currency}` : ''}`}
        fault={faults.price}
        value={price}
        onType={setPrice}
      />
      {faults.other && (
        <p class="fault" role="alert">
          {faults.other}
        </p>
      )}
      <div class="pick-deeds">
        <button type="button" onClick={() => void shutStockForm(lot?.id ?? null)}>
          {lot ? 'Leave it as it was' : 'Back'}
        </button>
        <button type="submit" class="first-deed">
          {lot ? 'Keep it so' : 'Keep this lot'}
        </button>
      </div>
    </form>
  )
}

/** A whole number typed; NaN where it is none. */
const whole = (typed: string) => (/^\d+$/.test(typed.trim()) ? Number(typed.trim()) : Number.NaN)

/** A price typed, with a point or a comma; null where none is told, NaN where it is none. */
function money(typed: string): number | null {
  const told = typed.trim().replace(',', '.')
  if (told === '') return null
  return /^\d+(\.\d+)?$/.test(told) ? Number(told) : Number.NaN
}

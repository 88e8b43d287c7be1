import { useEffect, useState } from 'preact/hooks'
import type { Copied, DeskFault, MoveOn, Warning } from '../../desk/door.ts'
import { Choice } from '../../ui/Choice.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { inSeason } from '../frame/stripPlaces.ts'
import { readNumber } from '../ground/formValues.ts'
import { showDayOfYear } from '../show/dates.ts'
import { showCount } from '../show/figures.ts'
import { crops, varieties } from '../state/crops.ts'
import { ask } from '../state/door.ts'
import { newId } from '../state/newId.ts'
import { plantings } from '../state/plantings.ts'
import { layers, measured } from '../state/shown.ts'
import { doEdits, type Edits } from '../state/steps.ts'
import { on, season } from '../state/where.ts'
import { WarningList } from './WarningList.tsx'

const MOVES: readonly { readonly value: MoveOn['to']; readonly words: string }[] = [
  { value: 'same place', words: 'Same place' },
  { value: 'next side', words: 'Next side' },
  { value: 'next bed', words: 'Next bed' },
]

type Line = Copied & { readonly id: string }

/** Carries a season's plan over to the next: every planting a year later, where it stood or moved on, with what clashes told before any of it is kept. */
export function NextYear() {
  const [to, setTo] = useState<MoveOn['to']>('same place')
  const [by, setBy] = useState('1')
  const [lines, setLines] = useState<readonly Line[] | null>(null)
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set())
  const [found, setFound] = useState<readonly Warning[] | null>(null)
  const [fault, setFault] = useState<DeskFault | null>(null)
  const [kept, setKept] = useState<string | null>(null)
  const from = season.value
  const steps = readNumber(by)
  const known = plantings.value

  useEffect(() => {
    let over = false
    setFound(null)
    if (steps === null || !Number.isInteger(steps) || steps < 1 || steps > 999) {
      setLines(null)
      return
    }
    void ask('copySeason', { season: from, to, by: steps }).then((reply) => {
      if (over) return
      if (reply.ok) setLines(reply.value.map((line) => ({ ...line, id: newId() })))
      else setFault(reply.fault)
    })
    return () => {
      over = true
    }
  }, [from, to, steps, known])

  const taken = (lines ?? []).filter(({ planting, of }) => planting !== null && !left.has(of))
  const edits: Edits = taken.map(({ planting, id }) => ({ do: 'add', kind: 'plantings', record: { ...planting!, id } }))
  const asked = taken.map(({ id }) => id).join(' ')
  useEffect(() => {
    if (edits.length === 0) {
      setFound([])
      return
    }
    let over = false
    const wait = setTimeout(async () => {
      const reply = await ask('warnings', { on: on.value, beds: null, edits })
      if (!over && reply.ok) setFound(reply.value)
    }, 150)
    return () => {
      over = true
      clearTimeout(wait)
    }
  }, [asked])

  const keep = async () => {
    setFault(null)
    const reply = await doEdits(`Copy the plan of ${from} to ${from + 1}`, edits)
    if (!reply.ok) {
      setFault(reply.fault)
      return
    }
    setKept(`${showCount(edits.length)} plantings are planned for ${from + 1}.`)
    on.value = inSeason(on.value, from, from + 1)
  }
  const clashes = new Map<string, Warning[]>()
  for (const warning of found ?? []) {
    const of = taken.some(({ id }) => id === warning.planting)
    if (of) clashes.set(warning.planting, [...(clashes.get(warning.planting) ?? []), warning])
  }
  const beds = [...new Set((lines ?? []).map(({ bed }) => bed))]
  return (
    <section aria-label="Next year" class="next-year">
      <h2>
        The plan of {from}, for {from + 1}
      </h2>
      {kept !== null && <p role="status">{kept} Undo takes all of it back.</p>}
      <p>Every planting that grows in {from}, a year later to the day.</p>
      <Choice label="Where to" options={MOVES} value={to} onChange={setTo} />
      {to !== 'same place' && (
        <Entry
          label={to === 'next bed' ? 'Beds to move on by, in its field' : 'Sides to move on by, in its bed'}
          hint="After the last comes the first."
          fault={steps === null || !Number.isInteger(steps) || steps < 1 ? 'A whole number from 1.' : null}
        >
          {(names) => (
            <input
              {...names}
              type="text"
              inputMode="numeric"
              value={by}
              onInput={(event) => setBy(event.currentTarget.value)}
            />
          )}
        </Entry>
      )}
      {lines?.length === 0 && <p class="first-steps">Nothing is recorded as growing in {from}.</p>}
      {lines !== null && lines.length > 0 && (
        <>
          <p class="next-sum" aria-live="polite">
            <strong>{showCount(taken.length)} plantings</strong>
            {found === null ? ', looking for clashes' : `, ${showCount(clashes.size)} with something to look at`}
          </p>
          {fault && (
            <p class="fault" role="alert">
              {fault.detail}
            </p>
          )}
          <p class="deeds-quiet">
            <button
              type="button"
              class="first-deed"
              disabled={taken.length === 0 || found === null}
              onClick={() => void keep()}
            >
              Keep all of it as one step
            </button>
            {clashes.size > 0 && (
              <button
                type="button"
                onClick={() =>
                  setLeft(new Set([...left, ...taken.filter(({ id }) => clashes.has(id)).map(({ of }) => of)]))
                }
              >
                Leave out what clashes
              </button>
            )}
            {left.size > 0 && (
              <button type="button" onClick={() => setLeft(new Set())}>
                Take all again
              </button>
            )}
          </p>
          {beds.map((bed) => (
            <section key={bed} aria-label={bedName(bed)}>
              <h3>{bedName(bed)}</h3>
              <ul class="next-lines">
                {lines
                  .filter((line) => line.bed === bed)
                  .map((line) => (
                    <li key={line.of}>
                      {line.planting === null ? (
                        <p class="hint">
                          {nameOf(line.of)}: {line.why}.
                        </p>
                      ) : (
                        <label class="tick">
                          <input
                            type="checkbox"
                            checked={!left.has(line.of)}
                            onChange={(event) => {
                              const after = new Set(left)
                              if (event.currentTarget.checked) after.delete(line.of)
                              else after.add(line.of)
                              setLeft(after)
                            }}
                          />
                          <span>
                            {nameOf(line.of)}, {rowName(line.planting.row)}, {showDayOfYear(line.planting.set_out)}
                          </span>
                        </label>
                      )}
                      {clashes.has(line.id) && <WarningList of={clashes.get(line.id)!} />}
                    </li>
                  ))}
              </ul>
            </section>
          ))}
        </>
      )}
    </section>
  )
}

const bedName = (bed: string) => measured.value?.beds.find(({ id }) => id === bed)?.name ?? 'Bed'

function rowName(row: string | null): string {
  const found = layers.value?.rows.features.find(({ properties }) => properties.id === row)?.properties
  return row === null ? 'whole width' : (found?.side ?? found?.name ?? 'row')
}

function nameOf(id: string): string {
  const planting = plantings.value?.find((one) => one.id === id)
  const variety = varieties.value.find((one) => one.id === planting?.variety)
  const crop = crops.value?.find((one) => one.id === variety?.crop)
  return crop && variety ? `${crop.name}, ${variety.name}` : 'A planting'
}

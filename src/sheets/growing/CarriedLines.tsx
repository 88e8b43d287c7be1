import { useEffect, useState } from 'preact/hooks'
import type { Copied, DeskFault, Warning } from '../../desk/door.ts'
import { inSeason } from '../frame/stripPlaces.ts'
import { showDayOfYear } from '../show/dates.ts'
import { showCount } from '../show/figures.ts'
import { crops, varieties } from '../state/crops.ts'
import { ask } from '../state/door.ts'
import { plantings } from '../state/plantings.ts'
import { layers, measured } from '../state/shown.ts'
import { doEdits, type Edits } from '../state/steps.ts'
import { on, season } from '../state/where.ts'
import { WarningList } from './WarningList.tsx'

/** A planting carried over into a season ahead, under the id that it gets. */
export type Carried = Copied & { readonly id: string; readonly season: number }

interface Props {
  readonly lines: readonly Carried[]
  /** Plantings that were planned before, and go as these are kept. */
  readonly instead: readonly string[]
  /** The step's name. */
  readonly step: string
  readonly kept: (words: string) => void
}

/** Plantings carried over, bed by bed, with what clashes told before any of it is kept, and each to be left out. */
export function CarriedLines({ lines, instead, step, kept }: Props) {
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set())
  const [found, setFound] = useState<readonly Warning[] | null>(null)
  const [fault, setFault] = useState<DeskFault | null>(null)
  const taken = lines.filter(({ planting, id }) => planting !== null && !left.has(id))
  const edits: Edits = [
    ...instead.map((id) => ({ do: 'remove' as const, kind: 'plantings', id })),
    ...taken.map(({ planting, id }) => ({
      do: 'add' as const,
      kind: 'plantings',
      record: { ...planting!, id },
    })),
  ]
  const asked = [...instead, ...taken.map(({ id }) => id)].join(' ')
  useEffect(() => {
    setFound(null)
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
    const reply = await doEdits(step, edits)
    if (!reply.ok) {
      setFault(reply.fault)
      return
    }
    const first = Math.min(...taken.map((line) => line.season))
    kept(`${showCount(taken.length)} plantings are planned.`)
    on.value = inSeason(on.value, season.value, first)
  }
  const clashes = new Map<string, Warning[]>()
  const ids = new Set(taken.map(({ id }) => id))
  for (const warning of found ?? [])
    if (ids.has(warning.planting)) clashes.set(warning.planting, [...(clashes.get(warning.planting) ?? []), warning])
  const places = [...new Set(lines.map(placeOf))]
  const several = new Set(lines.map((line) => line.season)).size > 1
  return (
    <>
      <p class="next-sum" aria-live="polite">
        <strong>{showCount(taken.length)} plantings</strong>
        {found === null ? ', looking for clashes' : `, ${showCount(clashes.size)} with something to look at`}
        {instead.length > 0 && `; ${showCount(instead.length)} that were planned before go`}
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
          <button type="button" onClick={() => setLeft(new Set([...left, ...clashes.keys()]))}>
            Leave out what clashes
          </button>
        )}
        {left.size > 0 && (
          <button type="button" onClick={() => setLeft(new Set())}>
            Take all again
          </button>
        )}
      </p>
      {places.map((place) => {
        const here = lines.filter((line) => placeOf(line) === place)
        const { bed, season: year } = here[0]!
        const name = several ? `${bedName(bed)}, ${year}` : bedName(bed)
        return (
          <section key={place} aria-label={name}>
            <h3>{name}</h3>
            <ul class="next-lines">
              {here.map((line) => (
                <li key={line.id}>
                  {line.planting === null ? (
                    <p class="hint">
                      {nameOf(line.of)}: {line.why}.
                    </p>
                  ) : (
                    <label class="tick">
                      <input
                        type="checkbox"
                        checked={!left.has(line.id)}
                        onChange={(event) => {
                          const after = new Set(left)
                          if (event.currentTarget.checked) after.delete(line.id)
                          else after.add(line.id)
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
        )
      })}
    </>
  )
}

const placeOf = ({ bed, season: year }: Carried) => `${year} ${bed}`

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

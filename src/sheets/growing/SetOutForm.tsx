import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { DeskFault, Warning } from '../../desk/door.ts'
import { Entry } from '../../ui/Entry.tsx'
import { addDays } from '../show/days.ts'
import { lengthFigure, told } from '../show/figures.ts'
import { crops, varieties } from '../state/crops.ts'
import { ask } from '../state/door.ts'
import { units } from '../state/farm.ts'
import { farmMap } from '../state/mapHandle.ts'
import { bedOfRow } from '../state/plantings.ts'
import {
  anotherAfter,
  anotherBeside,
  dropDraft,
  giveUpSettingOut,
  laneOf,
  putInBed,
  type SettingOut,
  settingOut,
  settingOutKept,
  takeInHand,
} from '../state/settingOut.ts'
import { measured } from '../state/shown.ts'
import { doEdits, type Edits } from '../state/steps.ts'
import { on } from '../state/where.ts'
import { DraftForm } from './DraftForm.tsx'
import { type Draft, type DraftFaults, readDraft, spanOf } from './draft.ts'
import { draftEdits } from './draftEdits.ts'
import { useStretchOnMap } from './useStretchOnMap.ts'
import { WarningList } from './WarningList.tsx'

/** How long typing and dragging rest before what they mean is looked at. */
const REST_MS = 200

/** Setting plantings out, or moving one: where by tapping the map or by choosing, how far by dragging or typing, and what to look at again before any of it is kept. */
export function SetOutForm({ now }: { readonly now: SettingOut }) {
  const [tried, setTried] = useState(false)
  const [fault, setFault] = useState<DeskFault | null>(null)
  const [found, setFound] = useState<readonly Warning[]>([])
  const form = useRef<HTMLFormElement>(null)
  const { bed, history, drafts, active } = now
  const read = drafts.map((draft) => readDraft(draft, bed ?? '', laneOf(history, draft.row), units.value))
  const edits = editsOf(drafts, read)
  useStretchOnMap(now, nameOf, (row) => {
    const of = bedOfRow.value.get(row)
    if (of !== undefined) void putInBed(of, row)
  })
  useLayoutEffect(() => form.current?.querySelector<HTMLElement>('select, input')?.focus(), [])

  const asked = JSON.stringify(edits)
  useEffect(() => {
    if (edits.length === 0 || bed === null) {
      setFound([])
      return
    }
    let over = false
    const wait = setTimeout(async () => {
      const reply = await ask('warnings', { on: on.value, beds: [bed], edits })
      if (!over && reply.ok) setFound(reply.value)
    }, REST_MS)
    return () => {
      over = true
      clearTimeout(wait)
    }
  }, [asked, bed])

  const keep = async () => {
    setTried(true)
    setFault(null)
    const amiss = read.findIndex(({ planting }) => planting === null)
    if (bed === null || amiss >= 0) {
      if (amiss >= 0) takeInHand(amiss)
      queueMicrotask(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus())
      return
    }
    const reply = await doEdits(labelOf(now), edits)
    if (reply.ok) settingOutKept(drafts[0]!.id)
    else setFault(reply.fault)
  }
  const after = () => {
    const { cleared } = drafts[active]!
    if (cleared === '') {
      setTried(true)
      form.current?.querySelector<HTMLElement>('[name="cleared"]')?.focus()
      setFault({
        kind: 'asked wrongly',
        field: null,
        record: null,
        detail: 'Tell first when this one is cleared: what comes after it is set out from that day on.',
      })
      return
    }
    setFault(null)
    anotherAfter(addDays(cleared, 0))
  }
  return (
    <form
      ref={form}
      class="record-form setting-out"
      aria-label={now.label}
      onSubmit={(event) => {
        event.preventDefault()
        void keep()
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape') giveUpSettingOut()
      }}
    >
      <h2>{now.label}</h2>
      <Entry
        label="Bed"
        hint={bed === null ? 'Tap a row on the map, or choose the bed.' : undefined}
        fault={tried && bed === null ? 'Choose a bed, or tap a row on the map.' : null}
      >
        {(names) => (
          <select {...names} value={bed ?? ''} onChange={(event) => chooseBed(event.currentTarget.value)}>
            <option value="" disabled>
              choose
            </option>
            {measured.value?.beds.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Entry>
      {history &&
        drafts.map((draft, i) =>
          i === active ? (
            <DraftForm
              key={draft.id}
              draft={draft}
              history={history}
              faults={tried ? read[i]!.faults : typedFaults(read[i]!.faults)}
              several={drafts.length > 1}
              onDrop={() => dropDraft(i)}
            />
          ) : (
            <button key={draft.id} type="button" class="other-draft" onClick={() => takeInHand(i)}>
              {nameOf(draft)}: {placeWords(draft)}
              {tried && read[i]!.planting === null && ' (something is missing)'}
            </button>
          ),
        )}
      {history && (
        <p class="deeds-quiet">
          <button type="button" onClick={anotherBeside}>
            Another beside it
          </button>
          <button type="button" onClick={after}>
            Another after it
          </button>
        </p>
      )}
      <section class="found" aria-label="To look at again" aria-live="polite">
        {found.length > 0 && (
          <>
            <h3>To look at again</h3>
            <WarningList
              of={found}
              {...(drafts.length > 1 && { nameOf: (warning: Warning) => ofWhich(drafts, warning) })}
            />
          </>
        )}
      </section>
      {fault && (
        <p class="fault" role="alert">
          {fault.detail}
        </p>
      )}
      <p class="deeds">
        <button type="submit" class="first-deed">
          {found.length > 0 ? 'Keep it all the same' : 'Keep'}
        </button>
        <button type="button" onClick={giveUpSettingOut}>
          Give up
        </button>
      </p>
    </form>
  )
}

/** A bed chosen by its name is brought into view; one that was tapped is in it. */
function chooseBed(bed: string): void {
  void putInBed(bed, null)
  requestAnimationFrame(() => farmMap.value?.fitTo({ kind: 'beds', id: bed }))
}

/** What is missing is not a fault until it is to be kept; what is typed wrongly is one at once. */
function typedFaults({ variety: _, row: __, setOut: ___, ...typed }: DraftFaults): DraftFaults {
  return typed
}

function nameOf({ variety, fresh }: Draft): string {
  if (fresh) {
    const crop =
      fresh.crop?.of === 'catalogue'
        ? fresh.crop.entry.name
        : crops.value?.find(({ id }) => id === (fresh.crop?.of === 'farm' ? fresh.crop.id : ''))?.name
    return [crop, fresh.name].filter(Boolean).join(', ') || 'a new variety'
  }
  const found = varieties.value.find(({ id }) => id === variety)
  const crop = crops.value?.find(({ id }) => id === found?.crop)
  return found && crop ? `${crop.name}, ${found.name}` : 'not chosen yet'
}

function placeWords(draft: Draft): string {
  const lane = laneOf(settingOut.value?.history ?? null, draft.row)
  const span = spanOf(draft, lane, units.value)
  const stretch = span
    ? `, ${told(lengthFigure(span[0], units.value))} to ${told(lengthFigure(span[1], units.value))}`
    : ''
  return `${lane?.name ?? 'nowhere yet'}${stretch}`
}

function ofWhich(drafts: readonly Draft[], { planting }: Warning): string {
  const draft = drafts.find(({ id }) => id === planting)
  return draft ? `${nameOf(draft)}:` : 'What stands there:'
}

function editsOf(drafts: readonly Draft[], read: readonly ReturnType<typeof readDraft>[]): Edits {
  const sound = drafts.flatMap((draft, i) => {
    const planting = read[i]!.planting
    return planting ? [{ planting, kept: draft.kept, fresh: draft.fresh }] : []
  })
  return draftEdits(sound, new Set(crops.value?.map(({ id }) => id)))
}

function labelOf({ label, drafts }: SettingOut): string {
  if (label.startsWith('Move') || drafts.length === 0) return label
  return drafts.length === 1 ? `Set out ${nameOf(drafts[0]!)}` : `Set out ${drafts.length} plantings`
}

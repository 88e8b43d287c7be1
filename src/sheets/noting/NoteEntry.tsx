import { useEffect, useState } from 'preact/hooks'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { Entry } from '../../ui/Entry.tsx'
import { OtherDay } from '../picking/OtherDay.tsx'
import { OneOf } from '../picking/PickDetails.tsx'
import { stopFollowing } from '../picking/position.ts'
import { showDay } from '../show/dates.ts'
import { isCalendarDay } from '../show/days.ts'
import { choose } from '../state/chosen.ts'
import { ask } from '../state/door.ts'
import { type Noting, stopNoting } from '../state/noting.ts'
import { showPane } from '../state/pane.ts'
import { measured } from '../state/shown.ts'
import { doEdits } from '../state/steps.ts'
import { tapTaker } from '../state/tapTaker.ts'
import { on } from '../state/where.ts'
import { DressingAmount } from './DressingAmount.tsx'
import { firstTold, type NoteFaults, type NoteTold, noteEdits, readNote } from './noteTold.ts'
import { PictureEntry } from './PictureEntry.tsx'
import { Severity } from './Severity.tsx'
import { WhereNoted } from './WhereNoted.tsx'

/** What is offered where the farm has noted nothing yet. */
const USUAL = {
  observations: ['disease', 'animal damage', 'broken string', 'crack', 'wet spot', 'weeds', 'frost damage'],
  dressings: ['compost', 'mulch', 'clippings', 'manure', 'lime'],
} as const

/** Something seen, or what was put on a bed, is noted or put right: where, what, how much, a picture. */
export function NoteEntry({ note }: { readonly note: Noting }) {
  const { of, correcting } = note
  const [told, setTold] = useState<NoteTold>(() => firstTold(note, on.value))
  const [faults, setFaults] = useState<NoteFaults>({})
  /** What the farm has noted before; null until it is known, for what is offered must not move under a finger. */
  const [known, setKnown] = useState<readonly string[] | null>(null)
  const tell = (some: Partial<NoteTold>) => {
    setTold((before) => ({ ...before, ...some }))
    setFaults({})
  }
  const beds = measured.value?.beds ?? []
  useEffect(() => {
    const take = (at: LonLat, bed: string | null) => {
      tell(of === 'dressings' ? (bed === null ? {} : { bed }) : { at, bed })
      showPane('card')
    }
    tapTaker.value = ({ at, bed }) => take(at, bed)
    void ask('listRecords', { kind: of }).then((reply) => {
      const records = reply.ok ? reply.value : []
      const names = records.map((record) => String(of === 'dressings' ? record.material : record.kind))
      setKnown([...new Set(names.reverse())])
    })
    return () => {
      tapTaker.value = null
      stopFollowing()
    }
  }, [])
  const keep = async () => {
    const area = beds.find(({ id }) => id === told.bed)?.area_m2 ?? null
    const read = readNote(of, told, area)
    if ('faults' in read) {
      setFaults(read.faults)
      return
    }
    let photo = told.picture !== null && 'file' in told.picture ? told.picture.file : null
    if (told.picture !== null && 'bytes' in told.picture) {
      const kept = await ask('keepNotePicture', { bytes: told.picture.bytes })
      if (!kept.ok) {
        setFaults({ other: `The picture could not be kept: ${kept.fault.detail}` })
        return
      }
      photo = kept.value.file
    }
    const { id, label, edits } = noteEdits(note, { ...read.fields, photo })
    const reply = await doEdits(label, edits)
    if (!reply.ok) {
      setFaults({ other: reply.fault.detail })
      return
    }
    stopNoting()
    void choose({ kind: of, id })
  }
  const isDressing = of === 'dressings'
  return (
    <form
      class="pick-entry note-entry"
      aria-label={correcting ? 'Put a note right' : isDressing ? 'Note a dressing' : 'Note what is seen'}
      onSubmit={(event) => {
        event.preventDefault()
        void keep()
      }}
    >
      <h2>{isDressing ? 'Put on a bed' : 'Seen'}</h2>
      {!correcting && <OtherDay day={told.on} onToday={(on) => tell({ on })} />}
      <WhereNoted of={of} told={told} fault={faults.place} onTell={tell} />
      {known !== null && (
        <OneOf
          label={isDressing ? 'What was put on' : 'What was seen'}
          known={[...new Set([...known, ...USUAL[of]])]}
          value={told.what}
          onTell={(what) => tell({ what })}
        />
      )}
      {faults.what && (
        <p class="fault" role="alert">
          {faults.what}
        </p>
      )}
      {isDressing ? (
        <DressingAmount told={told} fault={faults.amount} onTell={tell} />
      ) : (
        <Severity value={told.severity} onTell={(severity) => tell({ severity })} />
      )}
      <PictureEntry value={told.picture} onTell={(picture) => tell({ picture })} />
      <Entry label="Note">
        {(labels) => (
          <textarea
            {...labels}
            rows={2}
            value={told.note}
            onInput={(event) => tell({ note: event.currentTarget.value })}
          />
        )}
      </Entry>
      <Entry label="Day" hint={`Told of ${showDay(told.on)}.`}>
        {(labels) => (
          <input
            {...labels}
            type="date"
            value={told.on}
            onChange={({ currentTarget: { value } }) => {
              if (isCalendarDay(value)) tell({ on: value })
            }}
          />
        )}
      </Entry>
      {faults.other && (
        <p class="fault" role="alert">
          {faults.other}
        </p>
      )}
      <div class="pick-deeds">
        <button type="button" onClick={stopNoting}>
          {correcting ? 'Leave it as it was' : 'Back'}
        </button>
        <button type="submit" class="first-deed">
          {correcting ? 'Keep it so' : 'Keep this note'}
        </button>
      </div>
    </form>
  )
}

import { useState } from 'preact/hooks'
import type { Fix, WalkEvent } from '../../../../geo/track/fix.ts'
import { leftOut } from '../../../../geo/track/readWalk.ts'
import type { TracksRead } from '../../../desk/door.ts'
import { showCount } from '../../show/figures.ts'
import { ask } from '../../state/door.ts'
import { recordWalk, takeAll, takeTrack, throwWalkAway, walkFault, walking } from '../../state/walking.ts'
import { readFiles } from '../readFiles.ts'
import { walkJudged, walkNow } from './walkNow.ts'

/** What can be done before walking, or after: start or go on, take a track from a file, throw what is kept away. */
export function WalkBegin() {
  const { file } = walking.value!
  const { fixes, parts } = walkNow.value
  const [out, judgedOut] = [leftOut(walkNow.value), leftOut(walkJudged.value)]
  const [told, setTold] = useState<{ readonly file: string; readonly read: TracksRead } | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const [sure, setSure] = useState(false)
  const corners = parts.filter((part) => part.is === 'held' && part.corner).length

  const open = async (files: FileList | null) => {
    const [one] = await readFiles(files)
    if (!one) return
    const reply = await ask('readTracks', one)
    setFault(reply.ok ? null : reply.fault.detail)
    setTold(reply.ok ? { file: one.name, read: reply.value } : null)
    if (reply.ok && reply.value.tracks.length === 1) takeTrack(one.name, eventsOf(reply.value.tracks[0]!.fixes))
  }
  return (
    <>
      {fixes === 0 ? (
        <p>
          A phone is some 3 to 10 m off. That does for the outline of a large field; it can’t tell one bed from the
          next: draw beds over an aerial photo, or measure them with a tape.
        </p>
      ) : (
        <p>
          {file === null ? 'Kept from your walk: ' : `${file}: `}
          {showCount(fixes)} positions{out > 0 && `, ${showCount(out)} left out`}
          {corners > 0 && `, ${corners} ${corners === 1 ? 'corner' : 'corners'} held`}.
        </p>
      )}
      {file !== null && judgedOut > 0 && (
        <label class="tick">
          <input
            type="checkbox"
            checked={walking.value!.takeAll}
            onChange={(event) => takeAll(event.currentTarget.checked)}
          />
          Take all positions, the {showCount(judgedOut)} that {judgedOut === 1 ? 'lies' : 'lie'} far off or{' '}
          {judgedOut === 1 ? 'is' : 'are'} too unsure as well
        </label>
      )}
      {(walkFault.value ?? fault) && (
        <p class="fault" role="alert">
          {walkFault.value ?? fault}
        </p>
      )}
      {told && told.read.tracks.length > 1 && (
        <section aria-label="Tracks in the file">
          <h3>Which one?</h3>
          <p class="deeds">
            {told.read.tracks.map(({ name, fixes }, n) => (
              <button key={n} type="button" onClick={() => takeTrack(told.file, eventsOf(fixes))}>
                {name}, {showCount(fixes.length)} positions
              </button>
            ))}
          </p>
        </section>
      )}
      {told && told.read.notes.length > 0 && (
        <details class="more">
          <summary>{showCount(told.read.notes.length)} left out of the file</summary>
          <ul>
            {told.read.notes.map((note, n) => (
              <li key={n}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      <p class="deeds">
        {file === null && (
          <button type="button" class={fixes === 0 ? 'first-deed' : ''} onClick={recordWalk}>
            {fixes === 0 ? 'Start walking' : 'Walk on'}
          </button>
        )}
        <label class="file">
          <span>Open a GPX track</span>
          <input
            type="file"
            accept=".gpx"
            onChange={(event) => {
              const input = event.currentTarget
              void open(input.files).then(() => {
                input.value = ''
              })
            }}
          />
        </label>
        {fixes > 0 && (
          <button
            type="button"
            onClick={() => {
              if (sure || file !== null) void throwWalkAway()
              setSure(!sure && file === null)
            }}
          >
            {sure ? 'Yes, throw it away' : file === null ? 'Throw it away' : 'Leave this track'}
          </button>
        )}
      </p>
    </>
  )
}

const eventsOf = (fixes: readonly Fix[]): WalkEvent[] => fixes.map((fix) => ({ does: 'fix', ...fix }))

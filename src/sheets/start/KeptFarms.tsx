import { useState } from 'preact/hooks'
import type { FarmEntry } from '../../desk/door.ts'
import { Dialog } from '../../ui/Dialog.tsx'
import { showMoment } from '../show/dates.ts'
import { farms } from '../state/farm.ts'
import { forgetFarm, openKept } from '../state/opening.ts'

/** The farms that are kept on this device, last opened first. */
export function KeptFarms() {
  const [forgetting, setForgetting] = useState<FarmEntry | null>(null)
  return (
    <section aria-label="Farms on this device">
      <h2>On this device</h2>
      <ul class="kept-farms">
        {farms.value.map((entry) => (
          <li key={entry.id}>
            <button type="button" onClick={() => void openKept(entry)}>
              <strong>{entry.name}</strong>
              <span>
                {entry.invented && 'invented, '}last open {showMoment(entry.openedMs)}
              </span>
            </button>
            <button type="button" class="quiet" onClick={() => setForgetting(entry)}>
              Forget<span class="unseen"> {entry.name}</span>
            </button>
          </li>
        ))}
      </ul>
      {forgetting && (
        <Dialog title={`Forget ${forgetting.name}?`} onClose={() => setForgetting(null)}>
          <p>
            It is taken off this device with its copies and can’t be brought back, unless you have saved it as an
            archive: open it first and choose <em>Save as an archive</em> from its menu.
          </p>
          <p class="deeds">
            <button type="button" class="first-deed" onClick={() => void forgetFarm(forgetting.id)}>
              Forget it
            </button>
          </p>
        </Dialog>
      )}
    </section>
  )
}

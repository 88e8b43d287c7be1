import { useState } from 'preact/hooks'
import { Dialog } from '../../ui/Dialog.tsx'
import { About } from '../frame/About.tsx'
import { Newer } from '../frame/Newer.tsx'
import { farms, openFarm, phase } from '../state/farm.ts'
import { openDemo } from '../state/opening.ts'
import { BeginFromFile } from './BeginFromFile.tsx'
import { KeptFarms } from './KeptFarms.tsx'
import { NewFarm } from './NewFarm.tsx'
import { OpenArchive } from './OpenArchive.tsx'
import { StartFault } from './StartFault.tsx'

/** Where a visit begins: the demo farm, a farm of one's own, an archive, or a farm that is kept here. */
export function Start() {
  const [making, setMaking] = useState(false)
  const [about, setAbout] = useState(false)
  return (
    <main class="first start">
      <h1>Selion</h1>
      <p>The plan of a small mixed farm: what stands where, what it yields, and where supports should stand.</p>
      <Newer />
      <StartFault />
      {farms.value.length > 0 && <KeptFarms />}
      <section class="start-ways" aria-label="Begin">
        <button type="button" class="first-deed" onClick={() => void openDemo()}>
          <strong>Look at the demo farm</strong>
          <span>invented, and yours to change; nothing of your own is touched</span>
        </button>
        <button type="button" onClick={() => setMaking(true)}>
          <strong>Start my own farm</strong>
          <span>draw it over an aerial photo, or on blank paper</span>
        </button>
        <BeginFromFile />
        <OpenArchive />
      </section>
      <p class="start-foot">
        Everything stays on this device.{' '}
        <button type="button" class="quiet" onClick={() => setAbout(true)}>
          About Selion
        </button>
        {openFarm.value && (
          <button
            type="button"
            class="quiet"
            onClick={() => {
              phase.value = 'open'
            }}
          >
            Back to {openFarm.value.farm.name}
          </button>
        )}
      </p>
      {making && (
        <Dialog title="Start my own farm" onClose={() => setMaking(false)}>
          <NewFarm />
        </Dialog>
      )}
      {about && <About onClose={() => setAbout(false)} />}
    </main>
  )
}

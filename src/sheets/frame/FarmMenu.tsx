import { useRef, useState } from 'preact/hooks'
import { Dialog } from '../../ui/Dialog.tsx'
import { later } from '../../ui/later.tsx'
import { Menu } from '../../ui/Menu.tsx'
import { Sending } from '../exchange/lazily.tsx'
import { print } from '../print/toPrint.ts'
import { startBringing } from '../state/bringing.ts'
import { look, showIn } from '../state/light.ts'
import { chooseFarm } from '../state/opening.ts'
import { About } from './About.tsx'
import { narrow } from './narrow.ts'
import { saveArchive } from './saveArchive.ts'

const OnDevice = later(async () => (await import('./OnDevice.tsx')).OnDevice)
const NotebookOut = later(async () => (await import('../notebook/NotebookOut.tsx')).NotebookOut)

/** What is done with the farm as a whole. */
export function FarmMenu() {
  const chooser = useRef<HTMLInputElement>(null)
  const [sending, setSending] = useState(false)
  const [notebook, setNotebook] = useState(false)
  const [device, setDevice] = useState(false)
  const [about, setAbout] = useState(false)
  const [fault, setFault] = useState<string | null>(null)
  return (
    <>
      <Menu label="Farm">
        <button type="button" onClick={async () => setFault(await saveArchive())}>
          Save as an archive
        </button>
        <button type="button" onClick={() => chooser.current?.click()}>
          Bring in a file
        </button>
        <button type="button" onClick={() => setSending(true)}>
          Send out
        </button>
        <button type="button" onClick={() => setNotebook(true)}>
          Take the notebook out
        </button>
        <button type="button" onClick={() => print('sheet')}>
          Print this sheet
        </button>
        <button type="button" onClick={() => void chooseFarm()}>
          Other farms
        </button>
        {narrow.value && (
          <button type="button" onClick={() => showIn(look.value === 'night' ? 'day' : 'night')}>
            {look.value === 'night' ? 'Show by day' : 'Show by night'}
          </button>
        )}
        <button type="button" onClick={() => setDevice(true)}>
          On this device
        </button>
        <button type="button" onClick={() => setAbout(true)}>
          About Selion
        </button>
      </Menu>
      <input
        ref={chooser}
        class="unseen"
        type="file"
        multiple
        tabIndex={-1}
        aria-label="File to bring in"
        onChange={(event) => {
          const input = event.currentTarget
          void startBringing([...(input.files ?? [])]).then(() => {
            input.value = ''
          })
        }}
      />
      {sending && <Sending onClose={() => setSending(false)} />}
      {notebook && <NotebookOut onClose={() => setNotebook(false)} />}
      {device && <OnDevice onClose={() => setDevice(false)} />}
      {about && <About onClose={() => setAbout(false)} />}
      {fault !== null && (
        <Dialog title="The archive could not be saved" onClose={() => setFault(null)}>
          <p>{fault}</p>
        </Dialog>
      )}
    </>
  )
}

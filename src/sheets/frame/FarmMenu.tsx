import { useState } from 'preact/hooks'
import { Dialog } from '../../ui/Dialog.tsx'
import { Menu } from '../../ui/Menu.tsx'
import { print } from '../print/toPrint.ts'
import { night, switchLight } from '../state/light.ts'
import { chooseFarm } from '../state/opening.ts'
import { About } from './About.tsx'
import { narrow } from './narrow.ts'
import { saveArchive } from './saveArchive.ts'

/** What is done with the farm as a whole. */
export function FarmMenu() {
  const [about, setAbout] = useState(false)
  const [fault, setFault] = useState<string | null>(null)
  return (
    <>
      <Menu label="Farm">
        <button type="button" onClick={async () => setFault(await saveArchive())}>
          Save as an archive
        </button>
        <button type="button" onClick={() => print('sheet')}>
          Print this sheet
        </button>
        <button type="button" onClick={() => void chooseFarm()}>
          Other farms
        </button>
        {narrow.value && (
          <button type="button" onClick={switchLight}>
            {night.value ? 'Show by day' : 'Show by night'}
          </button>
        )}
        <button type="button" onClick={() => setAbout(true)}>
          About Selion
        </button>
      </Menu>
      {about && <About onClose={() => setAbout(false)} />}
      {fault !== null && (
        <Dialog title="The archive could not be saved" onClose={() => setFault(null)}>
          <p>{fault}</p>
        </Dialog>
      )}
    </>
  )
}

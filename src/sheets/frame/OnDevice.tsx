import { useEffect, useState } from 'preact/hooks'
import { Dialog } from '../../ui/Dialog.tsx'
import { showBytes } from '../show/bytes.ts'
import { BUILD, install, installed, installOffer, network } from '../state/device.ts'
import { askToStay, type Room, readRoom } from '../state/room.ts'
import { WithoutNetwork } from './WithoutNetwork.tsx'

/** How the page and the farms are kept on this device, and what can be done for them. */
export function OnDevice({ onClose }: { readonly onClose: () => void }) {
  const [room, setRoom] = useState<Room | null>(null)
  const [asked, setAsked] = useState(false)
  useEffect(() => {
    void readRoom().then(setRoom)
  }, [])
  const stay = async () => {
    await askToStay()
    setRoom(await readRoom())
    setAsked(true)
  }
  return (
    <Dialog title="On this device" onClose={onClose}>
      <div class="on-device">
        <section aria-label="Without a network">
          <WithoutNetwork />
          <p class="hint">{network.value ? 'There is a network now.' : 'There is no network now.'}</p>
        </section>
        <section aria-label="As a program">
          {installed.value ? (
            <p>Selion stands on this device like any program.</p>
          ) : installOffer.value ? (
            <button type="button" class="first-deed" onClick={() => void install()}>
              Put Selion on this device
            </button>
          ) : (
            <p class="hint">
              To have it open like a program, look in the browser’s own menu for “Install” or “Add to home screen”.
            </p>
          )}
        </section>
        {room && (
          <section aria-label="Room">
            <p>
              <strong>{showBytes(room.used)}</strong> taken up, the page itself among it.
              {room.free !== null && ` The browser tells of ${showBytes(room.free)} more, which is a guess.`}
            </p>
            {room.stays ? (
              <p class="hint">The browser keeps all of it until you clear it away yourself.</p>
            ) : (
              <>
                <p class="hint">
                  The browser may clear a page’s data away when the device runs short of room. Keep archives elsewhere.
                  {asked &&
                    ' It was asked to keep this, and has said no: it tends to agree once the page is installed.'}
                </p>
                {!asked && (
                  <button type="button" onClick={() => void stay()}>
                    Ask the browser to keep it
                  </button>
                )}
              </>
            )}
          </section>
        )}
        <section aria-label="To make room">
          <p class="hint">
            To make room: free the files of removed photos (Ground, Photos), save a farm as an archive elsewhere and
            then forget it here (Farm, Other farms), or clear other sites’ data in the browser’s settings.
          </p>
        </section>
        {BUILD !== '' && <p class="hint">This is build {BUILD}.</p>}
      </div>
    </Dialog>
  )
}

import { Dialog } from '../../ui/Dialog.tsx'
import { NOTICE_URL } from './notice.ts'

/** What this is, what it is made of, and under which licences. */
export function About({ onClose }: { readonly onClose: () => void }) {
  return (
    <Dialog title="About Selion" onClose={onClose}>
      <p>
        Selion keeps the plan of a small mixed farm: what stands where, what it yields, and where supports should stand.
        A selion was one of the long strips that an open field was worked in.
      </p>
      <p>
        Everything is kept and reckoned on this device, in a Postgres database inside the page. Nothing is sent
        anywhere, and nothing is fetched from anywhere but where this page came from. The archive that you save is the
        backup that later versions will open.
      </p>
      <p>
        Figures are reckoned in the farm’s own plane: within 5 km of its middle its lengths and areas are true to one
        part in a million.
      </p>
      <p>
        Selion’s own source is under the MIT licence. The database contains PostGIS, under the GNU General Public
        License, version 2 or later. <a href={NOTICE_URL}>Every licence of what is built in</a>
      </p>
    </Dialog>
  )
}

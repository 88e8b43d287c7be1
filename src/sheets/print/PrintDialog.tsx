import { effect } from '@preact/signals'
import { useEffect, useState } from 'preact/hooks'
import type { DrawnMap } from '../../map/farmMap.ts'
import type { Picture } from '../../print/paint/photo.ts'
import { loadType } from '../../print/type/loadType.ts'
import type { Type } from '../../print/type/openFonts.ts'
import { Dialog } from '../../ui/Dialog.tsx'
import { wholeTables } from '../../ui/Table.tsx'
import { saveFile } from '../frame/saveFile.ts'
import { openFarm } from '../state/farm.ts'
import { latest } from '../state/latest.ts'
import { farmMap } from '../state/mapHandle.ts'
import { on, sheet } from '../state/where.ts'
import { titlesNow } from './askSheet.ts'
import { choices } from './choices.ts'
import { followSheet, sheetIsBusy } from './followSheet.ts'
import { type LaidOut, layOut } from './layOut.ts'
import { Preview } from './Preview.tsx'
import { PrintChoices } from './PrintChoices.tsx'
import { decodePhotos, type Produced, producePdf, producePng } from './produce.ts'
import { type PrintedList, toPrint } from './toPrint.ts'

interface Shown {
  readonly laid: LaidOut
  readonly type: Type
  readonly pictures: ReadonlyMap<string, Picture>
}

/** Prints a sheet, or a list: what is to be on paper is chosen and seen, then saved as PDF or PNG. */
export function PrintDialog({ what }: { readonly what: 'sheet' | PrintedList }) {
  const [shown, setShown] = useState<Shown | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const [doing, setDoing] = useState<string | null>(null)
  const [busy, setBusy] = useState(true)
  const [at, setAt] = useState(0)
  useEffect(() => keepSheetAsItWas(), [])
  useEffect(() => {
    // Pages that are laid while the sheet changes are not yet what it shows.
    let changes = 0
    const lay = latest(async (again: boolean) => {
      const before = changes
      try {
        const next = await layNow(what, again)
        if (!next) return
        setFault('fault' in next ? next.fault : null)
        setShown('fault' in next ? null : next)
      } catch (error) {
        setFault(`The pages could not be laid out: ${error instanceof Error ? error.message : String(error)}`)
      }
      setBusy(sheetIsBusy() || changes !== before)
    })
    const changing = () => {
      changes += 1
      setBusy(true)
    }
    const stopFollowing = followSheet(changing, () => void lay(true))
    const stop = effect(() => {
      void lay(lastPhotos !== choices.value.withPhotos)
    })
    return () => {
      stopFollowing()
      stop()
      lastDrawn = null
    }
  }, [what])

  const save = async (making: string, make: (shown: Shown) => Promise<Produced>) => {
    if (!shown) return
    setDoing(making)
    try {
      const { name, bytes, mime } = await make(shown)
      saveFile(name, new Blob([bytes.slice()], { type: mime }))
      setFault(null)
    } catch (error) {
      setFault(`It could not be saved: ${error instanceof Error ? error.message : String(error)}`)
    }
    setDoing(null)
  }
  const pages = shown?.laid.pages ?? []
  const n = Math.min(at, Math.max(0, pages.length - 1))
  const page = pages[n]
  const title = titleOf(what)
  const told = { title, subject: openFarm.value?.farm.name ?? '', madeMs: Date.now() }
  const lacking = shown ? [...shown.type.lacking] : []
  return (
    <Dialog
      title={what === 'sheet' ? 'Print a sheet' : `Print: ${what.title}`}
      wide
      onClose={() => {
        toPrint.value = null
      }}
    >
      <div class="print-body">
        <div class="print-look">
          {page && shown ? (
            <Preview {...shown} page={page} label={`Page ${n + 1} of ${pages.length}: ${page.name}`} />
          ) : (
            <div class="print-preview">{fault === null && <p class="hint">Laying out the pages</p>}</div>
          )}
          {pages.length > 1 && page && (
            <div class="print-pages">
              <button type="button" disabled={n === 0} onClick={() => setAt(n - 1)}>
                Page before
              </button>
              <p aria-live="polite">
                {page.name}, {n + 1} of {pages.length}
              </p>
              <button type="button" disabled={n === pages.length - 1} onClick={() => setAt(n + 1)}>
                Next page
              </button>
            </div>
          )}
          {fault !== null && (
            <p class="fault" role="alert">
              {fault}
            </p>
          )}
          {lacking.length > 0 && (
            <p class="hint">
              Printed as pictures in a font of this device, since the bundled fonts lack them: {lacking.join(' ')}
            </p>
          )}
        </div>
        <PrintChoices ofSheet={what === 'sheet'} fits={shown?.laid.scale ?? null} />
      </div>
      <div class="print-foot">
        <button
          type="button"
          class="first-deed"
          disabled={!shown || busy || doing !== null}
          onClick={() =>
            void save('Making the PDF', ({ laid, type, pictures }) => producePdf(laid, type, pictures, told))
          }
        >
          Save as PDF
        </button>
        <button
          type="button"
          disabled={!shown || busy || doing !== null}
          onClick={() =>
            void save('Drawing the picture', ({ laid, type, pictures }) =>
              producePng(laid, type, pictures, choices.value.dpi, title),
            )
          }
        >
          Save as PNG
        </button>
        <p class="hint" role="status">
          {doing ??
            (busy
              ? 'Waiting for the sheet’s figures'
              : 'Print the PDF at its actual size (100 %), so that its scale stays true.')}
        </p>
      </div>
    </Dialog>
  )
}

/** The sheet under the dialog shows what is printed, whole tables and all; when it closes it is as it was. */
function keepSheetAsItWas(): () => void {
  const before = { sheet: sheet.peek(), on: on.peek() }
  wholeTables.value = true
  return () => {
    wholeTables.value = false
    sheet.value = before.sheet
    on.value = before.on
  }
}

let lastDrawn: DrawnMap | null = null
let lastPhotos: boolean | null = null
const decoded = new WeakMap<DrawnMap, ReadonlyMap<string, Picture>>()

/** Lays the pages by what is chosen now; `again` asks the map anew. Null while there is no map. */
async function layNow(what: 'sheet' | PrintedList, again: boolean): Promise<Shown | { readonly fault: string } | null> {
  const map = farmMap.peek()
  if (!map) return null
  const { withPhotos } = choices.peek()
  if (again || !lastDrawn) lastDrawn = await map.drawn(withPhotos && what === 'sheet')
  lastPhotos = withPhotos
  const drawn = lastDrawn
  const pictures = decoded.get(drawn) ?? (await decodePhotos(drawn))
  decoded.set(drawn, pictures)
  const type = await loadType()
  const laid = layOut(what, choices.peek(), drawn, type)
  return 'fault' in laid ? laid : { laid, type, pictures }
}

const titleOf = (what: 'sheet' | PrintedList) => {
  const { farm, sheet: name } = titlesNow()
  return `${farm} – ${what === 'sheet' ? name : what.title} – ${on.value}`
}

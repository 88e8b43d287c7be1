import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { Dialog } from '../../ui/Dialog.tsx'
import { type PrintedList, toPrint } from '../print/toPrint.ts'

/** The print dialog, fetched when something is first to be printed. */
export function PrintHost() {
  const what = toPrint.value
  const [loaded, setLoaded] = useState<ComponentType<{ readonly what: 'sheet' | PrintedList }> | null>(null)
  const [failed, setFailed] = useState(false)
  useEffect(() => {
    if (!what || loaded) return
    setFailed(false)
    import('../print/PrintDialog.tsx').then(
      ({ PrintDialog }) => setLoaded(() => PrintDialog),
      () => setFailed(true),
    )
  }, [what, loaded])
  const close = () => {
    toPrint.value = null
  }
  const Loaded = loaded
  if (!what) return null
  if (Loaded) return <Loaded what={what} />
  if (!failed) return null
  return (
    <Dialog title="Printing could not be started" onClose={close}>
      <p>What it needs could not be fetched. Look whether the device is connected, and try again.</p>
    </Dialog>
  )
}

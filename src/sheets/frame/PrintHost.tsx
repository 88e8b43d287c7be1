import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { type PrintedList, toPrint } from '../print/toPrint.ts'

/** The print dialog, fetched when something is first to be printed. */
export function PrintHost() {
  const what = toPrint.value
  const [loaded, setLoaded] = useState<ComponentType<{ readonly what: 'sheet' | PrintedList }> | null>(null)
  useEffect(() => {
    if (what && !loaded) void import('../print/PrintDialog.tsx').then(({ PrintDialog }) => setLoaded(() => PrintDialog))
  }, [what, loaded])
  const Loaded = loaded
  return what && Loaded ? <Loaded what={what} /> : null
}

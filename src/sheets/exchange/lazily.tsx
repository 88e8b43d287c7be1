import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'

/** The panel of bringing in and the dialog of sending out, fetched when they are first wanted. */
function useLater<P>(load: () => Promise<ComponentType<P>>): ComponentType<P> | null {
  const [found, setFound] = useState<{ readonly component: ComponentType<P> } | null>(null)
  useEffect(() => {
    void load().then((component) => setFound({ component }))
  }, [])
  return found?.component ?? null
}

export function Bringing() {
  const Panel = useLater(async () => {
    await import('./exchange.css')
    return (await import('./BringIn.tsx')).BringIn
  })
  return Panel && <Panel />
}

export function Sending({ onClose }: { readonly onClose: () => void }) {
  const Panel = useLater(async () => {
    await import('./exchange.css')
    return (await import('./SendOut.tsx')).SendOut
  })
  return Panel && <Panel onClose={onClose} />
}

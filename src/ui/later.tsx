import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'

/** A part of the page that is fetched when it is first shown; until then, and where that fails, it says so. */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  let loaded: ComponentType<P> | null = null
  return function Later(props: P) {
    const [stands, setStands] = useState<'coming' | 'here' | 'missing'>(loaded ? 'here' : 'coming')
    useEffect(() => {
      if (stands !== 'coming') return
      load().then(
        (part) => {
          loaded = part
          setStands('here')
        },
        () => setStands('missing'),
      )
    }, [stands])
    const Loaded = loaded
    if (Loaded) return <Loaded {...props} />
    if (stands === 'coming') return <p class="hint">One moment</p>
    return (
      <div class="fault" role="alert">
        <p>This part of the page could not be fetched.</p>
        <button type="button" onClick={() => setStands('coming')}>
          Try again
        </button>
      </div>
    )
  }
}

import { useEffect } from 'preact/hooks'
import type { Act } from '../../state/act.ts'
import { closeAct } from '../../state/drawing.ts'
import { AlignPane } from './AlignPane.tsx'
import { AlongsidePane } from './AlongsidePane.tsx'
import { MergePane } from './MergePane.tsx'
import { OffsetPane } from './OffsetPane.tsx'
import { RemovePane } from './RemovePane.tsx'
import { SplitPane } from './SplitPane.tsx'

/** What is being done with things that stand, shown on the map before it is kept. */
export function ActPane({ act }: { readonly act: Act }) {
  useEffect(() => {
    const shut = (event: KeyboardEvent) => {
      if (event.key === 'Escape') closeAct()
    }
    document.addEventListener('keydown', shut)
    return () => document.removeEventListener('keydown', shut)
  }, [])
  switch (act.do) {
    case 'alongside':
      return <AlongsidePane things={act.things} />
    case 'offset':
      return <OffsetPane things={act.things} />
    case 'align':
      return <AlignPane things={act.things} />
    case 'merge':
      return <MergePane things={act.things} />
    case 'split':
      return <SplitPane thing={act.things[0]!} cut={act.cut} />
    case 'remove':
      return <RemovePane things={act.things} />
  }
}

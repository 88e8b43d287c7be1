import type { ComponentChildren } from 'preact'
import { closeAct } from '../../state/drawing.ts'
import { EditFault } from '../EditFault.tsx'

interface Props {
  readonly title: string
  readonly deed: string
  /** Why it can't be done as it stands; null where it can. */
  readonly why: string | null
  readonly onDo: () => void
  readonly children: ComponentChildren
}

/** The frame of an act: its title, what is asked, what is wrong, and the deed. */
export function ActFrame({ title, deed, why, onDo, children }: Props) {
  return (
    <form
      class="act"
      aria-label={title}
      onSubmit={(event) => {
        event.preventDefault()
        if (!why) onDo()
      }}
    >
      <h2>{title}</h2>
      {children}
      {why && (
        <p class="fault" role="alert">
          {why}
        </p>
      )}
      <EditFault />
      <p class="deeds">
        <button type="submit" class="first-deed" disabled={why !== null}>
          {deed}
        </button>
        <button type="button" onClick={closeAct}>
          Give up
        </button>
      </p>
    </form>
  )
}

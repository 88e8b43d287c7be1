import { useId } from 'preact/hooks'

/** A true bar: how much of how much is done. Without `of` it only says that something is under way. */
export function Progress({
  doing,
  done,
  of,
}: {
  readonly doing: string
  readonly done?: number
  readonly of?: number
}) {
  const id = useId()
  const known = done !== undefined && of !== undefined && of > 0
  return (
    <div class="progress">
      <label class="first-doing" for={id}>
        {doing}
      </label>
      <progress id={id} {...(known && { value: Math.min(done, of), max: of })} />
    </div>
  )
}

import { useEffect, useState } from 'preact/hooks'
import { ask } from '../state/door.ts'

/** A picture that is kept with a record. */
export function Picture({ file, of }: { readonly file: string; readonly of: string }) {
  const [url, setUrl] = useState<string | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  useEffect(() => {
    let made: string | null = null
    let gone = false
    setFault(null)
    void ask('seeNotePicture', { file }).then((reply) => {
      if (gone) return
      if (!reply.ok) {
        setFault(reply.fault.detail)
        return
      }
      made = URL.createObjectURL(new Blob([reply.value.bytes.slice()], { type: reply.value.mime }))
      setUrl(made)
    })
    return () => {
      gone = true
      if (made !== null) URL.revokeObjectURL(made)
    }
  }, [file])
  if (fault !== null) return <p class="fault">{fault}</p>
  if (url === null) return <p class="hint">Fetching the picture</p>
  return (
    <img
      class="noted-picture"
      src={url}
      alt={`${of}, as it was seen`}
      onError={() => setFault('The picture could not be read.')}
    />
  )
}

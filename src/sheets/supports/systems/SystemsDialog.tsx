import { useEffect, useState } from 'preact/hooks'
import { CATALOGUE, type CatalogueSystem, INVENTED_PRICES } from '../../../../geo/supports/catalogue.ts'
import { Dialog } from '../../../ui/Dialog.tsx'
import { From } from '../../../ui/From.tsx'
import { showCount } from '../../show/figures.ts'
import { history, units } from '../../state/farm.ts'
import { newId } from '../../state/newId.ts'
import { doEdits } from '../../state/steps.ts'
import { systemsUsed } from '../../state/systems.ts'
import { catalogueEdits, draftOf, emptyDraft, type KnownSystem, type SystemDraft } from './draft.ts'
import { readSystems } from './readSystems.ts'
import { SystemForm } from './SystemForm.tsx'
import { SystemRemoval } from './SystemRemoval.tsx'

type Open =
  | { readonly at: 'list' }
  | { readonly at: 'catalogue' }
  | { readonly at: 'form'; readonly draft: SystemDraft; readonly known: KnownSystem | null }
  | { readonly at: 'removal'; readonly known: KnownSystem }

/** The farm's support systems: changed, made, taken from the catalogue, removed. */
export function SystemsDialog({ onClose }: { readonly onClose: () => void }) {
  const [open, setOpen] = useState<Open>({ at: 'list' })
  const [systems, setSystems] = useState<readonly KnownSystem[] | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const step = history.value
  useEffect(() => {
    void readSystems().then(setSystems)
  }, [step])
  const add = async (from: CatalogueSystem) => {
    const reply = await doEdits(`Add ${from.name}`, catalogueEdits(from, newId))
    setFault(reply.ok ? null : reply.fault.detail)
    if (reply.ok) setOpen({ at: 'list' })
  }
  const back = () => setOpen({ at: 'list' })
  return (
    <Dialog title="Support systems" onClose={onClose} wide>
      {open.at === 'form' && <SystemForm first={open.draft} known={open.known} onDone={back} />}
      {open.at === 'removal' && <SystemRemoval known={open.known} onDone={back} />}
      {open.at === 'catalogue' && (
        <>
          <p class="note">{INVENTED_PRICES} Every part can be changed once the system is the farm’s own.</p>
          <ul class="systems">
            {CATALOGUE.map((one) => (
              <li key={one.id}>
                <div>
                  <strong>{one.name}</strong>
                  {one.permanent ? ', left up' : ''}
                  <p>{one.says}</p>
                  <From about={one.name}>
                    <ul>
                      {one.parts.map((part) => (
                        <li key={part.part}>
                          {part.part}: {part.rule}. {part.source}.
                        </li>
                      ))}
                    </ul>
                  </From>
                </div>
                <button type="button" onClick={() => void add(one)}>
                  Add<span class="unseen"> {one.name}</span>
                </button>
              </li>
            ))}
          </ul>
          <p class="deeds">
            <button type="button" onClick={back}>
              Back
            </button>
          </p>
        </>
      )}
      {open.at === 'list' && (
        <>
          {systems?.length === 0 && <p>The farm has no support system yet. Take one from the catalogue to start.</p>}
          <ul class="systems">
            {systems?.map((known) => (
              <li key={known.system.id}>
                <div>
                  <strong>{known.system.name}</strong>
                  <p>
                    {[
                      `${showCount(known.parts.length)} ${known.parts.length === 1 ? 'part' : 'parts'}`,
                      `${showCount(systemsUsed.value.get(known.system.id) ?? 0)} standing`,
                    ].join(', ')}
                  </p>
                </div>
                <span class="deeds-in-row">
                  <button
                    type="button"
                    onClick={() => setOpen({ at: 'form', known, draft: draftOf(known, units.value) })}
                  >
                    Change<span class="unseen"> {known.system.name}</span>
                  </button>
                  <button type="button" class="quiet" onClick={() => setOpen({ at: 'removal', known })}>
                    Remove<span class="unseen"> {known.system.name}</span>
                  </button>
                </span>
              </li>
            ))}
          </ul>
          <p class="deeds">
            <button type="button" class="first-deed" onClick={() => setOpen({ at: 'catalogue' })}>
              From the catalogue
            </button>
            <button type="button" onClick={() => setOpen({ at: 'form', known: null, draft: emptyDraft(newId()) })}>
              A system of my own
            </button>
          </p>
        </>
      )}
      {fault !== null && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
    </Dialog>
  )
}

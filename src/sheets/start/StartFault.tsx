import { archiveAtFault, openingFault } from '../state/farm.ts'
import { bringArchive, openKept } from '../state/opening.ts'

/** Why a farm could not be opened, and what can be done about it. */
export function StartFault() {
  const told = openingFault.value
  if (!told) return null
  const { fault, entry } = told
  const archive = archiveAtFault.value
  return (
    <section class="fault start-fault" role="alert">
      <p>{fault.detail}</p>
      {fault.kind === 'locked' && entry && (
        <button type="button" onClick={() => void openKept(entry, true)}>
          Take over here
        </button>
      )}
      {fault.faults && fault.faults.length > 0 && (
        <div class="fault-table">
          <table>
            <caption class="unseen">Faults in the archive</caption>
            <thead>
              <tr>
                <th scope="col">file</th>
                <th scope="col">record</th>
                <th scope="col">field</th>
                <th scope="col">what is wrong</th>
              </tr>
            </thead>
            <tbody>
              {fault.faults.slice(0, 200).map(({ file, record, field, reason }) => (
                <tr key={`${file} ${record} ${field} ${reason}`}>
                  <td>{file}</td>
                  <td>{record}</td>
                  <td>{field}</td>
                  <td>{reason}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {fault.faults.length > 200 && <p>and {(fault.faults.length - 200).toLocaleString()} more</p>}
        </div>
      )}
      {archive && (
        <button type="button" onClick={() => void bringArchive(archive.name, archive.bytes, true)}>
          Bring in what is sound
        </button>
      )}
    </section>
  )
}

import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { readFolder } from '../../../src/cli/readFolder.ts'
import { writeFolder } from '../../../src/cli/writeFolder.ts'
import { writeWhole } from '../../../src/cli/writeWhole.ts'
import { archiveOf, SOUND } from './archiveOf.ts'

const NEW = { replace: false }

describe('an archive as a folder', () => {
  let place = ''
  beforeEach(async () => {
    place = await mkdtemp(join(tmpdir(), 'selion-folder-'))
  })
  afterEach(() => rm(place, { recursive: true }))
  const sorted = (files: ReadonlyMap<string, Uint8Array>) =>
    [...files].map(([path, bytes]) => [path, Buffer.from(bytes).toString('hex')]).sort()

  it('is written and read again the same, and nothing is left beside it', async () => {
    const files = archiveOf(SOUND)
    expect(await writeFolder(join(place, 'farm'), files, NEW)).toBeNull()
    const { files: again, faults } = await readFolder(join(place, 'farm'))
    expect(faults).toEqual([])
    expect(sorted(again)).toEqual(sorted(files))
    expect(await readdir(place)).toEqual(['farm'])
  })
  it('is written over an older archive: files that it has no more go, those of others stay', async () => {
    await writeFolder(join(place, 'farm'), archiveOf(SOUND), NEW)
    await writeFile(join(place, 'farm', 'notes.txt'), 'mine')
    const fewer = archiveOf({ 'farm.json': SOUND['farm.json']!, 'crops.csv': SOUND['crops.csv']! })
    expect(await writeFolder(join(place, 'farm'), fewer, { replace: true })).toBeNull()
    expect((await readdir(join(place, 'farm'), { recursive: true })).sort()).toEqual([
      'crops.csv',
      'farm.json',
      'notes.txt',
      'photos',
    ])
    expect(sorted((await readFolder(join(place, 'farm'))).files)).toEqual(sorted(fewer))
  })
  it('is written into an empty folder, but not over anything else', async () => {
    await mkdir(join(place, 'empty'))
    expect(await writeFolder(join(place, 'empty'), archiveOf(SOUND), NEW)).toBeNull()
    await mkdir(join(place, 'taxes'))
    await writeFile(join(place, 'taxes', '2024.txt'), 'x')
    expect(await writeFolder(join(place, 'taxes'), archiveOf(SOUND), NEW)).toMatch(
      /not empty and holds no selion-farm archive/,
    )
    expect(await readdir(join(place, 'taxes'))).toEqual(['2024.txt'])
    expect(await writeFolder(join(place, 'taxes', '2024.txt'), archiveOf(SOUND), NEW)).toMatch(/is a file/)
    expect(await readFile(join(place, 'taxes', '2024.txt'), 'utf8')).toBe('x')
  })
  it('takes no farm’s place unless told to', async () => {
    await writeFolder(join(place, 'farm'), archiveOf(SOUND), NEW)
    const fewer = archiveOf({ 'farm.json': SOUND['farm.json']! })
    expect(await writeFolder(join(place, 'farm'), fewer, NEW)).toMatch(/holds a farm already.*--replace/)
    expect(sorted((await readFolder(join(place, 'farm'))).files)).toEqual(sorted(archiveOf(SOUND)))
  })
  it('leaves the old farm as it was where a write fails, and nothing beside it', async () => {
    await writeFolder(join(place, 'farm'), archiveOf(SOUND), NEW)
    // A folder that stands where a file belongs lets the file be written beside, but not moved in.
    await mkdir(join(place, 'farm', 'stores.csv'))
    await writeFile(join(place, 'farm', 'stores.csv', 'mine.txt'), 'mine')
    const other = archiveOf({ ...SOUND, 'crops.csv': 'id,name,family\n', 'stores.csv': 'part,count\n' })
    await expect(writeFolder(join(place, 'farm'), other, { replace: true })).rejects.toThrow(/stores\.csv/)
    expect(sorted((await readFolder(join(place, 'farm'))).files)).toEqual(sorted(archiveOf(SOUND)))
    expect(await readFile(join(place, 'farm', 'stores.csv', 'mine.txt'), 'utf8')).toBe('mine')
    expect(await readdir(place)).toEqual(['farm'])
  })
  it('tells files and folders that it does not read', async () => {
    await writeFolder(join(place, 'farm'), archiveOf(SOUND), NEW)
    for (const folder of ['maps', 'photos/sub']) await mkdir(join(place, 'farm', folder))
    const others = ['weather.csv', 'maps/soil.tif', 'photos/sub/x.jpg', 'photos/.hid.jpg', '.DS_Store']
    for (const path of others) await writeFile(join(place, 'farm', path), 'x')
    const { files, faults, ignored } = await readFolder(join(place, 'farm'))
    expect(sorted(files)).toEqual(sorted(archiveOf(SOUND)))
    expect(faults).toEqual([])
    expect(ignored).toEqual(['maps/', 'photos/.hid.jpg', 'photos/sub/x.jpg', 'weather.csv'])
  })
  it('follows no link out of itself', async () => {
    await writeFolder(join(place, 'farm'), archiveOf(SOUND), NEW)
    await writeFile(join(place, 'secret.csv'), 'id,name\n')
    await rm(join(place, 'farm', 'systems.csv'))
    await symlink(join(place, 'secret.csv'), join(place, 'farm', 'systems.csv'))
    await symlink('/etc/passwd', join(place, 'farm', 'photos', 'passwd.png'))
    await symlink(join(place, 'nowhere'), join(place, 'farm', 'photos', 'gone.png'))
    await rm(join(place, 'farm', 'crops.csv'))
    await symlink(join(place, 'farm', 'varieties.csv'), join(place, 'farm', 'crops.csv'))
    const { files, faults } = await readFolder(join(place, 'farm'))
    expect(faults.map((fault) => fault.file).sort()).toEqual(['photos/gone.png', 'photos/passwd.png', 'systems.csv'])
    expect(files.has('systems.csv')).toBe(false)
    expect(files.has('crops.csv')).toBe(true)
  })
  it('refuses to write a path that leads out of it', async () => {
    await expect(writeFolder(join(place, 'farm'), archiveOf({ '../evil.csv': 'x' }), NEW)).rejects.toThrow(/leads out/)
    expect(await readdir(place)).toEqual([])
  })
})

describe('a file written whole', () => {
  it('stands in the old one’s place, or leaves that as it was', async () => {
    const place = await mkdtemp(join(tmpdir(), 'selion-file-'))
    await writeWhole(join(place, 'farm.zip'), Buffer.from('old'))
    await writeWhole(join(place, 'farm.zip'), Buffer.from('new'))
    expect(await readFile(join(place, 'farm.zip'), 'utf8')).toBe('new')
    await mkdir(join(place, 'taken.zip', 'within'), { recursive: true })
    await expect(writeWhole(join(place, 'taken.zip'), Buffer.from('new'))).rejects.toThrow(/taken\.zip/)
    expect((await readdir(place)).sort()).toEqual(['farm.zip', 'taken.zip'])
    await rm(place, { recursive: true })
  })
})

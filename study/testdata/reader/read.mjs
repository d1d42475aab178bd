// Writes what a Parquet file holds as JSON: its schema's columns, its rows, and its
// own metadata.
import { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } from 'hyparquet'
import { compressors } from 'hyparquet-compressors'

const file = await asyncBufferFromFile(process.argv[2])
const metadata = await parquetMetadataAsync(file)
const rows = await parquetReadObjects({ file, compressors })
const plain = (_, value) => (typeof value === 'bigint' ? Number(value) : value)
process.stdout.write(
  JSON.stringify(
    {
      created_by: metadata.created_by,
      columns: metadata.schema.slice(1).map((c) => c.name),
      codecs: [...new Set(metadata.row_groups.flatMap((g) => g.columns.map((c) => c.meta_data.codec)))],
      about: Object.fromEntries(metadata.key_value_metadata.map((k) => [k.key, k.value])),
      rows,
    },
    plain,
  ),
)

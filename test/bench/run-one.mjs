/** Runs the entries of one file, those whose name has one of the words if words are given, and prints the results as JSON. */
const [file, ...words] = process.argv.slice(2)
const { entries } = await import(file)
const wanted = entries.filter(({ name }) => words.length === 0 || words.some((word) => name.includes(word)))
const results = []
for (const { name, measures, limit, unit, run } of wanted) {
  try {
    const { value, detail } = await run()
    const ok = limit.atMost === undefined ? value >= limit.atLeast : value <= limit.atMost
    results.push({ name, measures, limit, unit, value, detail, ok })
  } catch (error) {
    results.push({ name, measures, limit, unit, ok: false, error: String(error) })
  }
}
console.log(JSON.stringify(results))

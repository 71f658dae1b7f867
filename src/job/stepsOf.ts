/** Steps of the name of a file as a job has it, either slash between them; `.` and empty ones left out.
 *  @example stepsOf('./models\\foot.stl') // => ['models', 'foot.stl'] */
export const stepsOf = (name: string): readonly string[] =>
  name.split(/[/\\]/).filter((step) => step !== '' && step !== '.');

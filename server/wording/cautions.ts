/** Cautions that stand on screens and reports. The tool informs; people decide. */
export const cautions: readonly string[] = [
  'This record compares temperatures with stated limits. It does not say that a weld is sound or safe, and it does not see the weld.',
  'The governing code, the qualified welding procedure and licensed practice come first. Where they differ from what stands here, follow them.',
  'Hot metal looks like cold metal. Test before you touch, wear protection against heat, and mark heated parts.',
  'Gas flames and hot elements start fires and use up air. Check hoses, shut off gas when you leave, and keep a fire watch.',
  'Heater and welding current can kill and can pass through thermocouple wires. Fit or move probes only with both switched off.',
  'Hydrogen cracks can open hours or days after welding. A good preheat record does not replace the waiting time and the test that the code asks for.',
  'A thermocouple tells the temperature of its own tip. A loose or badly placed tip can read too high or too low without any fault showing.',
];

/**
 * Thermocouple voltages as printed: NIST Standard Reference Database 60 (a work of the United States
 * Government, public domain), reference junction at 0 °C, each tenth degree, in microvolts as the tables
 * round them. The emulator reads these between the lines and knows no reference function, so that it
 * shares nothing with the station that it is there to test.
 */
export const lowestCelsius = -100;
export const stepCelsius = 10;
export const highestCelsius = 800;

/** Type K, from -100 to 800 °C. */
// biome-ignore format: a table is read in rows of a hundred degrees
export const microvoltsK: readonly number[] = [
  -3554, -3243, -2920, -2587, -2243, -1889, -1527, -1156, -778, -392,
  0, 397, 798, 1203, 1612, 2023, 2436, 2851, 3267, 3682,
  4096, 4509, 4920, 5328, 5735, 6138, 6540, 6941, 7340, 7739,
  8138, 8539, 8940, 9343, 9747, 10153, 10561, 10971, 11382, 11795,
  12209, 12624, 13040, 13457, 13874, 14293, 14713, 15133, 15554, 15975,
  16397, 16820, 17243, 17667, 18091, 18516, 18941, 19366, 19792, 20218,
  20644, 21071, 21497, 21924, 22350, 22776, 23203, 23629, 24055, 24480,
  24905, 25330, 25755, 26179, 26602, 27025, 27447, 27869, 28289, 28710,
  29129, 29548, 29965, 30382, 30798, 31213, 31628, 32041, 32453, 32865,
  33275,
];

/** Type J, from -100 to 800 °C. */
// biome-ignore format: a table is read in rows of a hundred degrees
export const microvoltsJ: readonly number[] = [
  -4633, -4215, -3786, -3344, -2893, -2431, -1961, -1482, -995, -501,
  0, 507, 1019, 1537, 2059, 2585, 3116, 3650, 4187, 4726,
  5269, 5814, 6360, 6909, 7459, 8010, 8562, 9115, 9669, 10224,
  10779, 11334, 11889, 12445, 13000, 13555, 14110, 14665, 15219, 15773,
  16327, 16881, 17434, 17986, 18538, 19090, 19642, 20194, 20745, 21297,
  21848, 22400, 22952, 23504, 24057, 24610, 25164, 25720, 26276, 26834,
  27393, 27953, 28516, 29080, 29647, 30216, 30788, 31362, 31939, 32519,
  33102, 33689, 34279, 34873, 35470, 36071, 36675, 37284, 37896, 38512,
  39132, 39755, 40382, 41012, 41645, 42281, 42919, 43559, 44203, 44848,
  45494,
];

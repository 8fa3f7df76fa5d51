package main

// island is one island as it was placed and shaped by hand: points clockwise
// from the north, NM east and north of its middle. The generator runs the
// coast through them.
type island struct {
	name     string
	lat, lon float64 // of the middle, degrees, longitude 0 to 360
	rough    float64 // of the coast: 0.1 beaches, 0.3 torn cliffs
	detail   float64 // longest edge, NM
	skerries int
	shape    []point
}

var islands = []island{
	{"Aldous", -47.20, 178.25, 0.20, 0.38, 5, []point{
		{-5.8, 11.2}, {1.2, 10.6}, {4.6, 10.1}, {8.2, 6.2}, {11.0, 4.0}, {8.9, 3.1}, {10.2, 2.0}, {9.4, -1.6},
		{10.3, -3.6}, {6.0, -7.6}, {3.0, -8.0}, {2.2, -11.8}, {-0.6, -12.0}, {-7.6, -8.6}, {-9.8, -4.4}, {-7.4, -2.2},
		{-10.4, 2.2}, {-8.6, 8.8}}},
	{"Calf of Aldous", -47.455, 178.30, 0.26, 0.2, 4, []point{
		{-0.4, 1.5}, {0.9, 0.9}, {1.6, -0.4}, {0.6, -1.5}, {-0.9, -1.2}, {-1.5, 0.3}}},
	{"Skerrow", -47.55, 180.19, 0.21, 0.38, 7, []point{
		{-4.0, 8.4}, {-1.8, 7.0}, {-0.6, 3.4}, {1.0, 7.2}, {8.8, 4.6}, {11.0, 0.6}, {14.6, -1.9}, {10.4, -2.7},
		{7.0, -6.8}, {2.2, -7.0}, {-3.0, -8.8}, {-7.2, -5.6}, {-10.9, -3.4}, {-9.6, -1.0}, {-13.2, 1.6}, {-11.8, 4.6}}},
	{"Linnet", -45.40, 183.20, 0.22, 0.95, 9, []point{
		{-56, -8}, {-59, 4}, {-47, 19}, {-45, 31}, {-27, 36}, {-15, 52}, {-1, 63}, {7, 59}, {9, 47},
		{27, 44}, {46, 34}, {43, 24}, {26, 15}, {20, 3}, {29, 10}, {44, 12}, {58, 9}, {62, -2}, {52, -13}, {55, -25},
		{36, -27}, {24, -38}, {9, -42}, {-1.7, -49}, {-12, -43}, {-19.7, -46.8}, {-27, -49.0}, {-31.4, -51.9}, {-33.7, -53.3},
		{-36.2, -52.2}, {-39, -50.4}, {-46, -51.4}, {-52, -43}, {-65, -37}, {-67, -27}, {-51, -27}, {-33, -17}, {-30, -12}, {-43, -14}}},
	{"Mollyhawk", -46.285, 179.135, 0.25, 0.22, 4, []point{
		{-3.4, 1.4}, {-0.6, 2.8}, {1.6, 2.5}, {4.0, 0.2}, {2.2, -0.9}, {0.8, -2.8}, {-2.4, -2.4}, {-4.3, -0.4}}},
	{"Little Mollyhawk", -46.325, 179.335, 0.26, 0.18, 2, []point{
		{-1.4, 0.5}, {0.0, 1.4}, {1.7, 0.7}, {1.2, -0.7}, {-0.3, -1.3}}},
	{"Mollyhawk Stack", -46.40, 179.24, 0.26, 0.12, 2, []point{
		{-0.7, 0.4}, {0.3, 0.8}, {0.9, -0.1}, {0.1, -0.7}}},
	{"Gannet Rock", -47.223, 182.627, 0.25, 0.2, 5, []point{
		{-1.8, 1.2}, {0.8, 1.6}, {2.4, -0.5}, {0.4, -1.1}, {-0.6, -1.9}, {-2.4, -1.1}}},
	{"Teal Holm", -47.763, 182.80, 0.24, 0.26, 4, []point{
		{-3.9, 3.2}, {-1.0, 3.0}, {2.2, 4.4}, {4.8, 1.0}, {2.6, -1.8}, {-0.2, -5.0}, {-2.0, -2.6}, {-4.0, -2.2}}},
	{"Prion", -48.55, 177.15, 0.20, 0.42, 6, []point{
		{6.4, 19.8}, {8.0, 14.0}, {5.2, 8.2}, {5.6, 1.2}, {2.0, -2.2}, {4.4, -5.4}, {1.6, -13.6},
		{-4.2, -21.4}, {-6.0, -14.2}, {-5.2, -4.4}, {-1.6, 1.2}, {-3.6, 5.6}, {0.6, 12.2}, {2.2, 18.8}}},
	{"Shearwater", -49.70, 179.35, 0.24, 0.66, 10, []point{
		{22, 19}, {36, 23}, {39, 16}, {27, 9}, {14, 8}, {8, 12.5}, {11, 6}, {26, 3}, {24, -5}, {9, -7},
		{12, -13}, {-2, -15}, {-6, -9}, {-9, -17}, {-22, -14}, {-38, -21}, {-41, -15}, {-28, -8}, {-16, -7}, {-27, -4},
		{-23, 3}, {-9, 5}, {-12, 11}, {2, 15}, {12, 21}}},
	{"Fulmar", -50.62, 182.40, 0.23, 0.5, 6, []point{
		{-12, 9}, {1, 11.5}, {9, 8}, {17, 2}, {15, -3.5}, {6, -4}, {-1, 1}, {3, -5.5}, {-1, -11}, {-8, -9}, {-13, -2}}},
	{"Skua", -51.35, 177.95, 0.30, 0.46, 10, []point{
		{-4, 8}, {3, 5}, {7, 6}, {11, -2}, {4, -1.5}, {8, -6}, {1, -8}, {-2, -2}, {-5, -7}, {-10, -2}, {-5, 1}, {-8, 5}}},
	{"Whimbrel", -45.25, 177.00, 0.18, 0.38, 3, []point{
		{-13, 6}, {-2, 8.4}, {11, 6}, {17, 1}, {9, -1.6}, {2, -7}, {-7, -5.4}, {-9, -1}, {-16, -2}}},
	{"Dunlin", -44.62, 179.45, 0.13, 0.32, 2, []point{
		{-8, 1.6}, {0, 3.8}, {6, 2.4}, {11, -2.6}, {5, -0.6}, {0.6, -2.6}, {-5, -3.6}, {-8, -1.4}}},
	{"Noddy", -46.42, 176.15, 0.24, 0.2, 3, []point{
		{-1.8, 1.6}, {0.5, 2.2}, {2.2, 0.6}, {1.2, -1.4}, {-1.0, -2.0}, {-2.3, -0.3}}},
	{"Kittiwake", -48.40, 181.75, 0.27, 0.2, 8, []point{
		{-2.6, 1.5}, {1.0, 2.4}, {3.0, 0.4}, {0.4, -0.6}, {0.2, -2.2}, {-1.8, -1.2}}},
	{"Storm Holm", -49.15, 184.55, 0.26, 0.32, 5, []point{
		{-5, 4.4}, {1, 6.6}, {7, 3.8}, {6, -3}, {0, -6.4}, {-1.4, -1.6}, {-6.4, -3.8}, {-7.6, 0.4}}},
	{"Turnstone", -48.20, 184.05, 0.19, 0.28, 3, []point{
		{0.6, 6.4}, {3.6, 3.6}, {4.2, -1.4}, {1.0, -6.8}, {-2.6, -3.4}, {-1.6, 0.4}, {-4.2, 3.2}}},
	{"Sheathbill", -51.72, 181.15, 0.25, 0.28, 4, []point{
		{-5, 2.0}, {0, 3.4}, {5.4, 2.2}, {6, -0.8}, {1, -3.4}, {-5.2, -1.2}}},
}

// place is a named point, hand-placed: NM east and north of the middle of its
// island.
type place struct {
	name, kind, island string
	x, y               float64
}

var places = []place{
	{"Port Aldous", "port", "Aldous", 10.191, 2.0}, // 47 10.0 S 178 30.0 E
	{"Aldous Field", "airfield", "Aldous", 1.5, 1.0},
	{"Lantern Head", "light", "Aldous", 11.0, 4.0},
	{"Aldous Down", "hill", "Aldous", -4.5, 3.5},
	{"Calf Light", "light", "Calf of Aldous", 0.2, -0.1},
	{"Skerrow", "chain station", "Skerrow", -1.8, 7.0},
	{"Skerrow Field", "airfield", "Skerrow", 1.5, -2.0},
	{"Spindrift Point", "cape", "Skerrow", 14.6, -1.9},
	{"Cape Linnet", "beacon", "Linnet", -33.7, -53.3},
	{"Linnet Haven", "port", "Linnet", -30, -12},
	{"Linnet Sound", "bay", "Linnet", -53, -21},
	{"Cape Fairlead", "cape", "Linnet", -1, 63},
	{"Hob Fell", "hill", "Linnet", -8, 22},
	{"Marram Field", "airfield", "Linnet", 4, -10},
	{"Port Marram", "port", "Linnet", 20, 3},
	{"Eastness", "light", "Linnet", 62, -2},
	{"Withy Bridge", "town", "Linnet", -22, -30},
	{"Mollyhawk", "chain station", "Mollyhawk", 0.5, -0.2},
	{"Gannet Rock", "beacon", "Gannet Rock", 0, 0},
	{"Teal Holm", "chain station", "Teal Holm", 1.1, 0},
	{"North Prion", "light", "Prion", 6.4, 19.8},
	{"Prion Haven", "port", "Prion", -1.6, 1.2},
	{"Port Halyard", "port", "Shearwater", 11, 6},
	{"Halyard Field", "airfield", "Shearwater", 0, 3},
	{"Cape Windlass", "light", "Shearwater", 39, 16},
	{"Westering Head", "cape", "Shearwater", -41, -15},
	{"Fulmar Bay", "alighting area", "Fulmar", 2.5, -2.5},
	{"Fulmar", "weather station", "Fulmar", -5, 5},
	{"Skua Light", "light", "Skua", 11, -2},
	{"Whimbrel Strand", "airfield", "Whimbrel", -1, 2},
	{"Cape Curlew", "cape", "Whimbrel", 17, 1},
	{"Dunlin", "beacon", "Dunlin", -1, 0.8},
	{"Noddy", "light", "Noddy", 0, 0.3},
	{"Kittiwake Stacks", "rock", "Kittiwake", 1.0, 2.4},
	{"Storm Holm", "weather station", "Storm Holm", 0.5, 2},
	{"Turnstone", "light", "Turnstone", 0.5, 0},
	{"Sheathbill", "beacon", "Sheathbill", 0, 0.5},
}

// where is a place on the earth, degrees.
func (p place) where() (lat, lon float64) {
	for i := range islands {
		if islands[i].name == p.island {
			at := islands[i].onEarth([]point{{p.x, p.y}})[0]
			return at[0], at[1]
		}
	}
	panic("no island " + p.island)
}

package work

// Topics lists the topics in the order of the help text.
func Topics() []Topic {
	return []Topic{
		atmosphereTopic(),
		airspeedTopic(),
		windTriangleTopic(),
		findWindTopic(),
		rhumbTopic(),
		geodesicTopic(),
		fieldTopic(),
		bodyTopic(),
		sightTopic(),
		fixTopic(),
		hyperbolicTopic(),
		deviationTopic(),
	}
}

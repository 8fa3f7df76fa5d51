package sim

import (
	"errors"
	"fmt"
	"math"

	"stillair/integrator"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/sim/fault"
	"stillair/sim/sensor"
)

// How many faults a flight may have: planned ones, and others given in flight.
const (
	MaxPlannedFaults = 64
	MaxLiveFaults    = 32
)

// FaultState is how far the faults have come: a slot for each, in the order of
// their arrival.
type FaultState struct {
	N     int64 // slots in use
	Next  int64 // tick at which they have to be looked at again
	Deeds int64 // done by the crew, of those that are wrong
	Habit fault.Habit
	Slots [MaxPlannedFaults + MaxLiveFaults]FaultSlot
}

// FaultSlot is how far one fault has come.
type FaultSlot struct {
	Onset  int64 // fault.Never: it waits for its trigger
	Mended int64 // fault.Never: it is not
	Acting bool
	Did    bool // its deed is done
}

func (f *FaultState) begin(planned []fault.Order) {
	for i := range planned {
		f.add(&planned[i], 0)
	}
}

func (f *FaultState) add(o *fault.Order, now int64) {
	slot := FaultSlot{Onset: max(o.At, now), Mended: fault.Never}
	if o.Trigger.Kind != fault.ByTime {
		slot.Onset = fault.Never
	}
	f.Slots[f.N] = slot
	f.N++
}

// healthy are the imperfections of the instrument when nothing is broken.
type healthy struct {
	senses    sensor.Imperfection
	mechanism integrator.Imperfections
}

func healthyOf(p *Plan) (h healthy) {
	h.mechanism, _ = p.Mechanism.Imperfections() // New has refused what has none
	for _, v := range p.Mechanism.Senses() {
		if !h.senses.Set(v.Name, v.X) {
			h.mechanism.Heading.Set(v.Name, v.X)
		}
	}
	h.depart(&p.Making)
	return h
}

// depart takes up how this one instrument was made.
func (h *healthy) depart(m *Making) {
	h.senses.Static.PositionError += m.PositionError
	h.senses.Thermometer.Error += m.Thermometer
	h.senses.Compass.A += m.Deviation
	w := &h.mechanism
	w.AirLog.Scale += m.AirLogScale
	w.Drive.GearError += m.GearError
	w.Heading.MisSet += m.Variation
	w.Heading.Repeater += m.Repeater
	w.Resolver.Zero += m.Resolver
}

// compileFaults makes the plan's faults and those of all commands ready.
func (e *Engine) compileFaults() error {
	orders := e.course.plan.Faults
	if len(orders) > MaxPlannedFaults {
		return fmt.Errorf("the flight has %d faults: at most %d", len(orders), MaxPlannedFaults)
	}
	orders = orders[:len(orders):len(orders)]
	for _, c := range e.commands {
		if c.Kind == Break {
			orders = append(orders, c.Order)
		}
	}
	if len(orders) > MaxPlannedFaults+MaxLiveFaults {
		return fmt.Errorf("at most %d faults in flight", MaxLiveFaults)
	}
	flown := make([]fault.Flown, len(orders))
	for i, o := range orders {
		if err := e.course.fits(&o); err != nil {
			return err
		}
		f, err := fault.Compile(o)
		if err != nil {
			return err
		}
		flown[i] = f
	}
	e.course.faults = flown
	return nil
}

// fits refuses what this make of instrument cannot have.
func (c *course) fits(o *fault.Order) error {
	if entry, ok := fault.Lookup(o.ID); ok && entry.NeedsPlotted() && c.plan.Mechanism.Ground != ground.Plotted {
		return fmt.Errorf("%s needs the plotted ground position: the running one has no wind clock to reset", o.ID)
	}
	return nil
}

// command does what is done to a fault.
func (c *course) command(s *State, cmd *Command) {
	f := &s.Faults
	switch cmd.Kind {
	case Break:
		f.add(&cmd.Order, s.Tick)
	case Mend:
		if i := int64(cmd.Fault); i >= 0 && i < f.N {
			f.Slots[i].Mended = min(f.Slots[i].Mended, s.Tick)
		}
	case Signal:
		for i := range f.N {
			t := &c.faults[i].Trigger
			if slot := &f.Slots[i]; slot.Onset == fault.Never && t.Kind == fault.BySignal && t.Signal == cmd.Signal && c.faults[i].At <= s.Tick {
				slot.Onset = s.Tick
			}
		}
	}
}

// breakdown brings what is wrong up to this tick and says whether anything came
// on or ended.
func (c *course) breakdown(s *State) (changed bool) {
	f := &s.Faults
	s.Senses.Wrong, s.Mechanism.Wrong, f.Habit = c.senses, c.mechanism, fault.Habit{}
	w := fault.Wrong{Senses: &s.Senses.Wrong, Mechanism: &s.Mechanism.Wrong, Habit: &f.Habit}
	f.Next = fault.Never
	for i := range f.N {
		slot, flown := &f.Slots[i], &c.faults[i]
		if slot.Mended <= s.Tick {
			changed = changed || slot.Acting
			slot.Acting = false
			continue
		}
		if slot.Onset == fault.Never && !s.arrived(slot, flown) {
			if flown.Trigger.Kind == fault.ByPlace {
				f.Next = min(f.Next, max(s.Tick+1, flown.At))
			}
			continue
		}
		shift := flown.At - slot.Onset // all times of an order count from its At
		amount, acts := flown.Amount(s.Tick + shift)
		if acts {
			flown.Write(amount, float64(s.Tick-slot.Onset)*dt, w)
			if flown.Deed.Done && !slot.Did {
				slot.Did = true
				f.Deeds++
				s.mistake(&flown.Deed)
			}
		}
		changed = changed || acts != slot.Acting
		slot.Acting = acts
		if next := flown.Next(s.Tick + shift); next < fault.Never {
			f.Next = min(f.Next, next-shift)
		}
	}
	return changed
}

// arrived sees whether a fault that waits for a place comes on, by the truth.
func (s *State) arrived(slot *FaultSlot, f *fault.Flown) bool {
	if f.Trigger.Kind != fault.ByPlace || s.Tick < f.At {
		return false
	}
	if nearer(s.World.Ground.Position(), f.Trigger.Place) > f.Trigger.Within {
		return false
	}
	slot.Onset = s.Tick
	return true
}

// nearer is the distance between two places on a sphere of 1852 m a minute: the
// haversine formula. A trigger needs no more.
func nearer(a, b units.Position) units.Length {
	h := func(x units.Angle) float64 { sin := math.Sin(float64(x) / 2); return sin * sin }
	x := h(a.Lat-b.Lat) + math.Cos(float64(a.Lat))*math.Cos(float64(b.Lat))*h(a.Lon-b.Lon)
	arc := units.Angle(2 * math.Asin(math.Sqrt(min(1, x))))
	return units.Length(arc.Minutes()) * units.NM
}

// mistake sets the counters wrong, as a deed says. The fix is the true place;
// an old one is as far back as the aircraft runs over the ground in that time.
func (s *State) mistake(d *fault.Deed) {
	truth := s.truth()
	run := float64(truth.Groundspeed) / float64(units.NM) * d.Late
	sin, cos := math.Sincos(float64(truth.Track))
	p := s.World.Ground.Position()
	east := (d.East - run*sin) / max(1e-6, math.Cos(float64(p.Lat)))
	p.Lon += units.Angle(east) * units.ArcMinute
	p.Lat += units.Angle(d.North-run*cos) * units.ArcMinute
	p.Lat = max(-90*units.Degree, min(90*units.Degree, p.Lat))
	s.Mechanism.SetCounters(p)
	s.World.setCounters(s.Tick)
	s.Leg.lookAgain()
}

// FaultStatus is one fault of the flight and how it stands. It is truth: a
// trainee does not see it.
type FaultStatus struct {
	Number int // for Mend
	Order  fault.Order
	Live   bool // given in flight, not planned
	Stands FaultStands
	Onset  int64 // tick; fault.Never while it waits for its trigger
	Ends   int64 // tick at which it ends or was mended; fault.Never: to the end
}

// FaultStands says how a fault stands.
type FaultStands uint8

// How a fault may stand: its time has not come, it waits for its place or
// signal, it is in force (an intermittent one also in its off time), its window
// is over, it was mended.
const (
	FaultPlanned FaultStands = iota
	FaultWaiting
	FaultInForce
	FaultOver
	FaultMended
)

// LiveFaults lists the faults given in flight so far; nil without any.
func (e *Engine) LiveFaults() (live []FaultStatus) {
	if e.state.Faults.N == int64(len(e.course.plan.Faults)) {
		return nil
	}
	for _, f := range e.Faults() {
		if f.Live {
			live = append(live, f)
		}
	}
	return live
}

// Faults lists all faults of the flight so far, planned ones first.
func (e *Engine) Faults() []FaultStatus {
	f := &e.state.Faults
	list := make([]FaultStatus, f.N)
	for i := range list {
		slot, o := &f.Slots[i], e.course.faults[i].Order
		s := FaultStatus{Number: i, Order: o, Live: i >= len(e.course.plan.Faults), Onset: slot.Onset, Ends: fault.Never}
		if o.For > 0 && slot.Onset < fault.Never {
			s.Ends = slot.Onset + o.For
		}
		s.Ends = min(s.Ends, slot.Mended)
		switch tick := e.state.Tick; {
		case slot.Mended <= tick && slot.Mended <= s.Ends:
			s.Stands = FaultMended
		case s.Ends <= tick:
			s.Stands = FaultOver
		case slot.Onset == fault.Never:
			s.Stands = FaultWaiting
		case slot.Onset <= tick:
			s.Stands = FaultInForce
		}
		list[i] = s
	}
	return list
}

// Break orders a fault now. It comes on at its At, at the earliest now, or when
// its trigger says from then on; its window counts from there.
func (e *Engine) Break(o fault.Order) error {
	if e.state.Over {
		return errOver
	}
	o.At = max(o.At, e.state.Tick)
	if err := e.course.fits(&o); err != nil {
		return err
	}
	flown, err := fault.Compile(o)
	if err != nil {
		return err
	}
	if live := int(e.state.Faults.N) - len(e.course.plan.Faults); live >= MaxLiveFaults {
		return fmt.Errorf("at most %d faults in flight", MaxLiveFaults)
	}
	return e.give(Command{Kind: Break, Order: flown.Order})
}

// Mend ends a fault by its number in Faults; one that has not begun never will.
func (e *Engine) Mend(number int) error {
	switch {
	case e.state.Over:
		return errOver
	case number < 0 || number >= int(e.state.Faults.N):
		return fmt.Errorf("there is no fault number %d", number)
	}
	return e.give(Command{Kind: Mend, Fault: number})
}

// MendAll mends every fault with this id that is not yet over.
func (e *Engine) MendAll(id string) error {
	found := false
	for _, f := range e.Faults() {
		if f.Order.ID != id || f.Stands >= FaultOver {
			continue
		}
		found = true
		if err := e.Mend(f.Number); err != nil {
			return err
		}
	}
	if !found {
		return fmt.Errorf("nothing to mend: no fault %s is planned or in force", id)
	}
	return nil
}

// Signal gives a signal, 0 to 9: faults that wait for it come on.
func (e *Engine) Signal(n int) error {
	switch {
	case e.state.Over:
		return errOver
	case n < 0 || n > 9:
		return fmt.Errorf("signal %d: must be 0 to 9", n)
	}
	return e.give(Command{Kind: Signal, Signal: n})
}

var errOver = errors.New("the flight has ended")

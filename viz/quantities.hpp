#pragma once

#include "sim/quantities_result.hpp"

/// The writers' view of how quantities are called: the lists belong to the results, since the rows
/// of a study use the same names and units.
namespace drumlin::viz {

using sim::QuantityKey;
using sim::Scale;

using sim::as_is;
using sim::face_quantities;
using sim::feature_quantities;
using sim::kelvin_to_celsius;
using sim::mm_per_s_to_m_per_min;
using sim::mm_per_s_to_m_per_s;
using sim::mm_per_s_to_mm_per_h;
using sim::mm_to_m;
using sim::mm_to_um;
using sim::mw_to_w;
using sim::per_s_to_per_min;
using sim::s_to_h;
using sim::s_to_ms;
using sim::station_quantities;

}  // namespace drumlin::viz

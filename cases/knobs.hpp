#pragma once

#include <string>
#include <vector>

#include "cases/case_family.hpp"

namespace drumlin::cases {

/// A setting that a person at the machine or in planning can turn, or a fact from before the line
/// that somebody else can.
struct Knob {
  enum class Kind {
    number,  ///< anything between two ends
    whole,   ///< whole numbers between two ends
    choice,  ///< one of the words listed
  };
  std::string key;             ///< as messages write it, such as "station[0].setting.interference"
  std::vector<KeyPath> paths;  ///< all that it sets; several: all by one factor, which is the value
  std::string name;            ///< in words, such as "interference"
  int station = -1;            ///< index in the file; -1: of none
  Kind kind = Kind::number;
  std::string unit;                  ///< that it is shown in; empty: a pure number
  double factor = 1;                 ///< inner value of one of that unit
  double now = 0;                    ///< [inner unit], or number of the choice
  double low = 0;                    ///< least that is looked at [inner unit]
  double high = 0;                   ///< most that is looked at [inner unit]
  double step = 0;                   ///< in which it is to be had [its unit]; 0: any value
  std::string low_by, high_by;       ///< what sets these ends, in words
  std::vector<Node> choices{};       ///< of a choice, from one end to the other
  std::vector<std::string> words{};  ///< the same as shown
  bool setting = true;               ///< false: from before the line, no setting of it
  std::string not_sought{};          ///< why it is listed and not turned; empty: it is turned
};

/// The knobs of a case: settings first, station by station, then what comes from upstream. Ends are
/// the reader's legal range, cut to ratings marked on tools and to a stated factor either way;
/// where no rating is given no speed of a tool above the case's own is looked at.
///
/// A new knob is one entry of the lists in knobs.cpp.
[[nodiscard]] std::vector<Knob> knobs_of(const OpenCase& open);

/// Puts a knob to a value [inner unit, or number of the choice] in a document of that case.
void turn(Node& document, const Knob& knob, double value);

}  // namespace drumlin::cases

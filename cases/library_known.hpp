#pragma once

#include <map>
#include <mutex>
#include <string>

#include "cases/library.hpp"

namespace drumlin::cases {

/// What has been looked up under a name, kept; look-ups that fail are made again.
template <class Entry>
class KnownEntries {
 public:
  template <class LookUp>
  Entry of(const std::string& name, const LookUp& look_up) {
    const std::scoped_lock lock(mutex_);
    const auto found = entries_.find(name);
    if (found != entries_.end()) return found->second;
    return entries_.emplace(name, look_up()).first->second;
  }

 private:
  std::mutex mutex_;
  std::map<std::string, Entry> entries_;
};

struct Library::Known {
  KnownEntries<Material> materials;
  KnownEntries<Abrasive> abrasives;
  KnownEntries<Backing> backings;
  KnownEntries<CoverMaterial> covers;
  KnownEntries<Grit> grits;
  KnownEntries<CoatingClass> classes;
  KnownEntries<ElastomerDefaults> elastomers;
  KnownEntries<BeltWearDefaults> belt_wear;
};

}  // namespace drumlin::cases
